/** What a file is meant to be, by its keys at the left margin, sound or not: a rack and a file of readings often lie beside parts files. */
export function fileKind(text: string): 'parts file' | 'rack' | 'file of readings' {
  if (/^["']?format["']?\s*:\s*["']?holdfast-rack\//m.test(text)) return 'rack';
  const has = (key: string) => new RegExp(`^["']?${key}["']?\\s*:`, 'm').test(text);
  return has('readings') && !has('parts') ? 'file of readings' : 'parts file';
}
