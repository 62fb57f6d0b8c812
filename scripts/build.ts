/** npm run build [-- --out FOLDER]: content -> the finished site. */
import { parseArgs } from 'node:util';
import { buildSite } from './build/site.ts';

const { values } = parseArgs({ options: { out: { type: 'string', default: 'dist' } } });
try {
  await buildSite(values.out);
} catch (error) {
  const { message, code } = error as NodeJS.ErrnoException;
  const what = code === 'ENOSPC' ? 'the disk is full' : message;
  console.error(`The build stopped, and the last good site is still in place: ${what}`);
  process.exitCode = 1;
}
