import { type Markup, markup, NOTHING, trusted } from './markup.ts';

/** A drawing that can be moved and zoomed once the script runs. */
export function drawingFrame(label: string, svg: string): Markup {
  return markup`<figure class="hf-figure" aria-label="${label}">
<div class="hf-frame">${trusted(svg.replace(/^<\?xml[^>]*\?>\s*/, ''))}</div>
</figure>`;
}

/** Nothing where there are no entries. */
export function noteList(title: string, entries: readonly string[]): Markup {
  if (entries.length === 0) return NOTHING;
  return markup`<h3>${title}</h3>
<ul class="hf-notes">
${entries.map((entry) => markup`<li>${entry}</li>\n`)}</ul>`;
}

export function table(
  heads: readonly string[],
  rows: readonly (readonly string[])[],
  caption: string,
): Markup {
  return markup`<div class="hf-wide" tabindex="0" role="region" aria-label="${caption}"><table>
<caption>${caption}</caption>
<thead><tr>${heads.map((head) => markup`<th scope="col">${head}</th>`)}</tr></thead>
<tbody>
${rows.map((row) => markup`<tr>${row.map((cell) => markup`<td>${cell}</td>`)}</tr>\n`)}</tbody>
</table></div>
`;
}
