import { isUtf8 } from 'node:buffer';
import { existsSync, realpathSync } from 'node:fs';
import { isAbsolute, relative, resolve } from 'node:path';
import { BYTES_PER_MB, type DrawingRead } from '../index.ts';
import { diskReason } from './disk-reason.ts';
import { sha256 } from './hash.ts';
import { NotOrdinary, readOrdinary } from './read-file.ts';
import type { World } from './world.ts';

/**
 * Reads drawings below `folder` only, and below the folder that a person allowed besides, so that a parts file from elsewhere cannot look around. A name is
 * looked at before the disk is asked, because asking alone can reach another machine; then links are followed, and where they end counts.
 */
export function drawingReader(
  { cwd, limits, drawingsFrom }: World,
  folder: string,
): (name: string) => DrawingRead {
  const more = drawingsFrom === null ? [] : [resolve(cwd, drawingsFrom)];
  const allowed = [folder, ...more.filter((each) => existsSync(each))];
  const most = limits.drawing * BYTES_PER_MB;
  return (name) => {
    const fault = nameFault(name);
    if (fault !== null) return { ok: false, reason: 'outside', detail: fault };
    const path = resolve(folder, name);
    try {
      const isAllowed =
        allowed.some((each) => isWithin(each, path)) && allowed.some((each) => isBelow(each, path));
      if (!isAllowed) return { ok: false, reason: 'outside', detail: OUTSIDE };
      const read = readOrdinary(path, most);
      if ('size' in read) return { ok: false, reason: 'too-large', bytes: read.size };
      return { ok: true, text: lettersOf(read.bytes), sha256: sha256(read.bytes) };
    } catch (error) {
      if (error instanceof NotOrdinary)
        return { ok: false, reason: 'unreadable', detail: error.message };
      const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
      return { ok: false, reason: missing ? 'missing' : 'unreadable', detail: diskReason(error) };
    }
  };
}

const OUTSIDE = 'it lies outside the folder of the parts file';

/** Why no drawing is looked for under a name on any system, so that a parts file means the same everywhere; null where one is. */
function nameFault(name: string): string | null {
  if (/^[a-z]:/i.test(name)) return 'it names a drive';
  if (/^[\\/]{2}/.test(name)) return 'it names another machine or a device';
  const steps = name.split(/[\\/]/);
  return steps.some((step) => DEVICE.test(step)) ? 'it is the name of a device on Windows' : null;
}

/** With any ending, and blanks before it. */
const DEVICE = /^(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[0-9\u00b9\u00b2\u00b3]) *(\.|:|$)/i;

/** Drawing programs of old write names in the older Western alphabet. */
function lettersOf(bytes: Buffer): string {
  return new TextDecoder(isUtf8(bytes) ? 'utf-8' : 'windows-1252').decode(bytes);
}

/** Links followed. Throws where one of the two is not there. */
export function isBelow(folder: string, path: string): boolean {
  return isWithin(realpathSync(folder), realpathSync(path));
}

/** By the names alone. */
function isWithin(folder: string, path: string): boolean {
  const inside = relative(folder, path);
  return inside !== '..' && !/^\.\.[\\/]/.test(inside) && !isAbsolute(inside);
}
