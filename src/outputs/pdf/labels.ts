import type { Drawing } from '../../drawing/display-list.ts';
import { addPage, type Canvas } from './canvas.ts';
import { closeCanvas, openCanvas } from './document.ts';
import { paintLayers } from './drawing-page.ts';

/** Pages of labels as a PDF file, each as large as its paper; asks printers for full size, since a label that is shrunk misses its place. */
export async function toLabelsPdf(
  title: string,
  pages: Iterable<Drawing>,
  date: Date | null,
): Promise<Uint8Array> {
  const canvas = await openCanvas(title, date, false);
  keepFullSize(canvas);
  for (const drawing of pages) {
    addPage(canvas, drawing, '');
    paintLayers(canvas, { drawing, scale: 1, left: 0, top: 0 });
  }
  return closeCanvas(canvas);
}

/** The writer has no option for this entry, but writes the catalogue's dictionary as it is. */
function keepFullSize({ doc }: Canvas): void {
  const { _root: root } = doc as unknown as { _root: { data: Record<string, unknown> } };
  root.data.ViewerPreferences = doc.ref({ PrintScaling: 'None' });
}
