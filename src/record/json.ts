/** What the text of a JSON file means; undefined where it is none. A byte order mark in front, as some editors leave it, is passed over. */
export function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
  } catch {
    return undefined;
  }
}

/** "materials[0].sheets[1].rack". */
export function pathText(path: readonly PropertyKey[]): string {
  const steps = path.map((step) => (typeof step === 'number' ? `[${step}]` : `.${String(step)}`));
  return steps.join('').replace(/^\./, '');
}
