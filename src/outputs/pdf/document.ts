import { fileURLToPath } from 'node:url';
import type { Canvas } from './canvas.ts';

/** The writer is loaded only when a PDF is asked for: it takes longer to load than a small plan to make. */
export async function openCanvas(title: string, date: Date | null): Promise<Canvas> {
  const { default: PDFDocument } = await import('pdfkit');
  const doc = new PDFDocument({
    autoFirstPage: false,
    bufferPages: true,
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

function joinBytes(chunks: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}
