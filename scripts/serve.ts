/** npm run serve [-- --port N] [--folder DIR]: serves the finished site on this machine only. Exit code 1 when the port is taken, 2 on wrong use. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { chosenPort, serveUntilStopped } from './serve/command.ts';

const { folder, port } = chosenPort(process.argv.slice(2));
if (!existsSync(join(folder, 'index.html'))) {
  console.error(`There is no site in ${folder}/. Run npm run build first, or npm start for both.`);
  process.exit(2);
}
await serveUntilStopped(folder, port);
