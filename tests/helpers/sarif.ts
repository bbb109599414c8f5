import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv from 'ajv-draft-04';
import addFormats from 'ajv-formats';

const SCHEMA = join(import.meta.dirname, '..', 'published', 'sarif', 'sarif-2.1.0.schema.json');

/** What the standard's own schema finds wrong with a log; and what the standard asks besides: that a result points at its rule [3.27.6]. */
export function sarifFaults(text: string): readonly string[] {
  // One pattern of the schema is none in the stricter grammar of Unicode patterns.
  const ajv = new Ajv.default({ strict: false, allErrors: true, unicodeRegExp: false });
  addFormats.default(ajv);
  const validate = ajv.compile(JSON.parse(readFileSync(SCHEMA, 'utf8')));
  const log: SarifLog = JSON.parse(text);
  if (!validate(JSON.parse(text)))
    return (validate.errors ?? []).map((each) => `${each.instancePath} ${each.message}`);
  return log.runs.flatMap(({ tool, results }) =>
    results
      .filter(({ ruleId, ruleIndex }) => tool.driver.rules[ruleIndex]?.id !== ruleId)
      .map(({ ruleId }) => `a result of ${ruleId} points at another rule`),
  );
}

/** As much of a log as the tests look at. */
export interface SarifLog {
  readonly runs: readonly {
    readonly tool: { readonly driver: { readonly rules: readonly { readonly id: string }[] } };
    readonly invocations: readonly {
      readonly executionSuccessful: boolean;
      readonly exitCode: number;
      readonly toolExecutionNotifications: readonly { readonly message: { text: string } }[];
    }[];
    readonly results: readonly {
      readonly ruleId: string;
      readonly ruleIndex: number;
      readonly level: string;
      readonly message: { readonly text: string };
      readonly locations: readonly {
        readonly physicalLocation: {
          readonly artifactLocation: { readonly uri: string };
          readonly region?: { readonly startLine: number; readonly startColumn: number };
        };
      }[];
    }[];
  }[];
}

/** "shelf.yaml:12:11 error limit-sheets" for each result, in their order. */
export function resultsOf(text: string): readonly string[] {
  const { results } = (JSON.parse(text) as SarifLog).runs[0]!;
  return results.map(({ ruleId, level, locations }) => {
    const { artifactLocation, region } = locations[0]!.physicalLocation;
    const at = region === undefined ? '' : `:${region.startLine}:${region.startColumn}`;
    return `${artifactLocation.uri}${at} ${level} ${ruleId}`;
  });
}
