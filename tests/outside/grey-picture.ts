/** A picture of grey dots, row by row from the top; 255 is white. */
export interface GreyPicture {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8Array;
}

/** Reads a PGM file as page renderers write it. */
export function greyPicture(bytes: Uint8Array): GreyPicture {
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(
    Buffer.from(bytes.subarray(0, 60)).toString('latin1'),
  );
  if (head === null) throw new Error('no PGM file of one byte a dot');
  const [whole, width, height] = head;
  return { width: Number(width), height: Number(height), grey: bytes.slice(whole.length) };
}

/** The bytes of the picture as a PGM file. */
export function greyBytes({ width, height, grey }: GreyPicture): Uint8Array {
  return Buffer.concat([Buffer.from(`P5\n${width} ${height}\n255\n`, 'latin1'), grey]);
}

/** What of the picture lies in a rectangle, to the nearest dot. */
export function cutOutOf(
  picture: GreyPicture,
  { x, y, width, height }: Readonly<Record<'x' | 'y' | 'width' | 'height', number>>,
): GreyPicture {
  const [left, top] = [Math.max(0, Math.round(x)), Math.max(0, Math.round(y))];
  const right = Math.min(picture.width, Math.round(x + width));
  const bottom = Math.min(picture.height, Math.round(y + height));
  const grey = new Uint8Array((right - left) * (bottom - top));
  for (let row = top; row < bottom; row++) {
    const from = row * picture.width;
    grey.set(picture.grey.subarray(from + left, from + right), (row - top) * (right - left));
  }
  return { width: right - left, height: bottom - top, grey };
}
