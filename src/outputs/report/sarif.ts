// Writes the checks of parts files as a log of SARIF 2.1.0, the form in which other programs take the results of checks.
// The names in brackets are sections of the standard (Static Analysis Results Interchange Format 2.1.0, OASIS, 2020). The same checks give the same bytes.
import { type Drift, isFailing } from '../../model/drift.ts';
import type { Place } from '../../model/place.ts';
import type { Plan } from '../../model/plan.ts';
import { type Checked, limitSentence, unheldSentence } from './check.ts';
import { RULES } from './sarif-rules.ts';

const SCHEMA = 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json';

type Level = 'error' | 'warning' | 'note';

interface Finding {
  readonly ruleId: string;
  readonly level: Level;
  readonly text: string;
  readonly file: string;
  /** Null: of the file as a whole. */
  readonly place: Place | null;
  /** A file to look at besides. */
  readonly related: string | null;
}

/** What of the run the checks do not know. */
export interface SarifRun {
  readonly toolVersion: string;
  readonly exitCode: number;
  readonly uriOf: (file: string) => string;
}

/** One run [3.14] for all files, in their order. */
export function toSarif(
  files: readonly Checked[],
  { toolVersion, exitCode, uriOf }: SarifRun,
): string {
  const findings = files.flatMap(findingsOf);
  const rules = [...new Set(findings.map(({ ruleId }) => ruleId))].sort();
  const log = {
    $schema: SCHEMA,
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'Holdfast',
            version: toolVersion,
            semanticVersion: toolVersion,
            rules: rules.map(ruleRecord),
          },
        },
        invocations: [
          {
            executionSuccessful: files.every(({ failure }) => failure === null),
            exitCode,
            toolExecutionNotifications: files.flatMap(({ file, failure }) =>
              failure === null
                ? []
                : [
                    {
                      level: 'error',
                      message: { text: plainText(failure) },
                      locations: [location(uriOf(file), null)],
                    },
                  ],
            ),
          },
        ],
        artifacts: files.map(({ file }) => ({ location: { uri: uriOf(file) } })),
        results: findings.map((finding) => resultRecord(finding, rules, uriOf)),
        columnKind: 'utf16CodeUnits',
      },
    ],
  };
  return `${JSON.stringify(log, null, 1)}\n`;
}

function findingsOf(checked: Checked): readonly Finding[] {
  const { file, problems, plan, broken, unheld, record, failure } = checked;
  const own: readonly Finding[] = [
    ...problems.map(({ file: of, code, severity, message, hint, place }) => ({
      ruleId: code,
      level: severity,
      text: hint === null ? message : `${message}: ${hint}`,
      file: of,
      place,
      related: null,
    })),
    // What shows results often shows none of the notifications of a run.
    ...(failure === null
      ? []
      : [
          {
            ruleId: 'not-checked',
            level: 'error' as const,
            text: failure,
            file,
            place: null,
            related: null,
          },
        ]),
  ];
  if (plan === null) return own;
  const { places } = plan.job.limits;
  return [
    ...own,
    ...unheld.map((limit) => ({
      ruleId: 'limit-not-held',
      level: 'warning' as const,
      text: unheldSentence(limit),
      file,
      place: places[limit] ?? null,
      related: null,
    })),
    ...broken.map((limit) => ({
      ruleId: `limit-${limit.limit}`,
      level: 'error' as const,
      text: limitSentence(plan, limit),
      file,
      place: limit.limit === 'stock' ? null : (places[limit.limit] ?? null),
      related: null,
    })),
    ...(record?.drifts ?? []).map((drift) => driftFinding(file, record!.file, plan, drift)),
  ];
}

/** At the part that it is about, or else at the limit that names the record. */
function driftFinding(file: string, record: string, plan: Plan, drift: Drift): Finding {
  const { parts, lengthParts, limits } = plan.job;
  const part = [...parts, ...lengthParts].find(({ name }) => name === drift.part);
  return {
    ruleId: `drift-${drift.kind}`,
    level: isFailing(drift) ? 'error' : 'note',
    text: `not as in the record: ${drift.message}`,
    file,
    place: part?.place ?? limits.places.drift ?? null,
    related: record,
  };
}

/** [3.49] */
function ruleRecord(id: string): object {
  const help = RULES[id]!;
  return { id, shortDescription: { text: help }, help: { text: help } };
}

/** [3.27] */
function resultRecord(
  { ruleId, level, text, file, place, related }: Finding,
  rules: readonly string[],
  uriOf: SarifRun['uriOf'],
): object {
  return {
    ruleId,
    ruleIndex: rules.indexOf(ruleId),
    level,
    message: { text: plainText(text) },
    locations: [location(uriOf(file), place)],
    ...(related === null
      ? {}
      : {
          relatedLocations: [
            { ...location(uriOf(related), null), message: { text: 'the record' } },
          ],
        }),
  };
}

/** [3.28]; columns count from 1 in UTF-16 code units, as the reader of the file counts them. */
function location(uri: string, place: Place | null): object {
  const region =
    place === null ? {} : { region: { startLine: place.line, startColumn: place.column } };
  return { physicalLocation: { artifactLocation: { uri }, ...region } };
}

/** Braces are doubled, as single ones mark a placeholder [3.11.5], and what looks like a link is made none [3.11.6]. */
function plainText(text: string): string {
  return text.replaceAll(/[{}]/g, (brace) => brace + brace).replaceAll(/\[(?=[^\]]*\]\()/g, '\\[');
}
