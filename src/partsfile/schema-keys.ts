import { partsFileSchema } from './schema.ts';

/** The JSON Schema of a kind of file. */
export type SchemaOf = () => object;

/** The keys that a section may have; sections are named by their path with `*` for any item, such as `materials.*.sheets.*`. */
export function keysOfSection(
  section: string,
  schemaOf: SchemaOf = partsFileSchema,
): readonly string[] {
  return allSections(schemaOf).get(section) ?? [];
}

/** The sections that have a key of this name. */
export function sectionsWithKey(
  key: string,
  schemaOf: SchemaOf = partsFileSchema,
): readonly string[] {
  return [...allSections(schemaOf)]
    .filter(([, keys]) => keys.includes(key))
    .map(([section]) => section);
}

interface JsonSchema {
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly additionalProperties?: JsonSchema | boolean;
  readonly items?: JsonSchema | readonly JsonSchema[];
  readonly anyOf?: readonly JsonSchema[];
}

const sections = new Map<SchemaOf, ReadonlyMap<string, readonly string[]>>();

/** Taken from the schema on first use, which is the first unknown key. */
function allSections(schemaOf: SchemaOf): ReadonlyMap<string, readonly string[]> {
  const known = sections.get(schemaOf);
  if (known !== undefined) return known;
  const found = new Map<string, readonly string[]>();
  collectSections(schemaOf() as JsonSchema, '', found);
  sections.set(schemaOf, found);
  return found;
}

function collectSections(schema: JsonSchema, path: string, found: Map<string, readonly string[]>) {
  const inner = (key: string) => (path === '' ? key : `${path}.${key}`);
  if (schema.properties !== undefined) {
    found.set(path, Object.keys(schema.properties));
    for (const [key, value] of Object.entries(schema.properties))
      collectSections(value, inner(key), found);
  }
  if (typeof schema.additionalProperties === 'object')
    collectSections(schema.additionalProperties, inner('*'), found);
  if (schema.items !== undefined && !Array.isArray(schema.items))
    collectSections(schema.items as JsonSchema, inner('*'), found);
  for (const option of schema.anyOf ?? []) collectSections(option, path, found);
}
