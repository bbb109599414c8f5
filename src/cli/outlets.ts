import type { Writable } from 'node:stream';
import { diskReason } from './disk-reason.ts';

/** Standard output or standard error, which may be closed by their reader or lie on a disk that is full. */
export interface Outlet {
  readonly write: (text: string) => void;
  /** Whether something could not be written, other than because nobody reads any more. */
  readonly hasFailed: () => boolean;
}

/**
 * What cannot be written is left out, and the command goes on: its files and its exit code are wanted all the same. A reader that closes the pipe early, as `head` does,
 * is no trouble at all; of anything else `tell` gets the reason, once.
 */
export function outletOf(stream: Writable, tell: (reason: string) => void): Outlet {
  let state: 'open' | 'closed' | 'failed' = 'open';
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (state !== 'open') return;
    // The second is what a closed pipe is called elsewhere.
    state = error.code === 'EPIPE' || error.code === 'EOF' ? 'closed' : 'failed';
    if (state === 'failed') tell(diskReason(error));
  });
  return {
    write: (text) => {
      if (state === 'open') stream.write(text);
    },
    hasFailed: () => state === 'failed',
  };
}
