/** What stopped a build, in words for whoever started it. */

/** Errors of the file system by their POSIX names. */
const meanings: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EROFS: 'that disk can only be read',
  EACCES: 'this user may not write there',
  EPERM: 'this user may not write there',
  ENOTDIR: 'a part of the path is a file and no folder',
  EEXIST: 'a file of that name stands where a folder is needed',
  EISDIR: 'a folder stands where a file is needed',
  EMFILE: 'too many files are open',
};

/** The path and what is wrong there, when the file system says so; else the error's own words. */
export function failureText(error: unknown): string {
  const { code, path, message } = error as NodeJS.ErrnoException;
  const meaning = code ? meanings[code] : undefined;
  if (!meaning) return message ?? String(error);
  return path ? `${path}: ${meaning}` : meaning;
}
