/** npm run build [-- --out FOLDER]: content -> the finished site. Exit code 1 when content, disk or a stage is at fault, 2 on wrong use. */
import { parseArgs } from 'node:util';
import { failureText } from './build/failure.ts';
import { buildSite } from './build/site.ts';

/** The folder to build into, or null after a word on right use. */
function chosenFolder(): string | null {
  try {
    return parseArgs({ options: { out: { type: 'string', default: 'dist' } } }).values.out;
  } catch (error) {
    console.error(`${(error as Error).message}\nUse: npm run build [-- --out FOLDER]`);
    return null;
  }
}

const folder = chosenFolder();
if (folder === null) process.exitCode = 2;
else
  try {
    await buildSite(folder);
  } catch (error) {
    console.error(`The build stopped, and the last good site is still in place. ${failureText(error)}`);
    process.exitCode = 1;
  }
