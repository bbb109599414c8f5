/** What the system said of a file, by its codes, in words. */
const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EACCES: 'no permission',
  EPERM: 'no permission',
  EEXIST: 'something of that name is in the way',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a part of the path is not a folder',
  ENOTEMPTY: 'the folder is not empty',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk space that you may use is full',
  EFBIG: 'the file would be larger than is allowed',
  EROFS: 'the disk is read-only',
  EIO: 'the disk failed',
  ENXIO: 'the disk is not there',
  ENODEV: 'the disk is not there',
  ESTALE: 'the network disk does not know the file any more',
  ETIMEDOUT: 'the network disk does not answer',
  EBUSY: 'another program has it open',
  ETXTBSY: 'another program has it open',
  EMFILE: 'too many files are open',
  ENFILE: 'too many files are open',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'its links go round in a circle',
  ERR_INVALID_ARG_VALUE: 'no file can have that name',
};

export function diskReason(error: unknown): string {
  const { code = '', message } = error as NodeJS.ErrnoException;
  return REASONS[code] ?? (code === '' ? message : `the system says ${code}`);
}

/** Whether the system refused something that was asked of it, as it does of files. */
export function isRefusal(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && 'syscall' in error && 'code' in error;
}
