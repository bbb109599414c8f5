import { fileURLToPath } from 'node:url';
import type { Canvas } from './canvas.ts';
import { joinBytes } from './join-bytes.ts';

/**
 * The writer is loaded only when a PDF is asked for: it takes longer to load than a small plan to make. Pages are kept until the end only where `keepPages`
 * says so, because something is to be added to them once their number is known.
 */
export async function openCanvas(
  title: string,
  date: Date | null,
  keepPages = true,
): Promise<Canvas> {
  const { default: PDFDocument } = await import('pdfkit');
  const doc = new PDFDocument({
    autoFirstPage: false,
    bufferPages: keepPages,
    font: fileURLToPath(new URL('./font/DejaVuSansCondensed.ttf', import.meta.url)),
    lang: 'en',
    info: {
      Title: title,
      Creator: 'Holdfast',
      Producer: 'Holdfast',
      CreationDate: date ?? new Date(0),
    },
  });
  return { doc, feet: [] };
}

export function closeCanvas({ doc }: Canvas): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('end', () => resolve(joinBytes(chunks)));
    doc.on('error', reject);
    doc.end();
  });
}
