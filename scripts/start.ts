/** npm start [-- --port N]: builds the site, then serves it. A port that is taken is told before the build, not after it. */
import { buildSite } from './build/site.ts';
import { chosenPort, refuseTakenPort, serveUntilStopped } from './serve/command.ts';

const { folder, port } = chosenPort(process.argv.slice(2));
await refuseTakenPort(port);
await buildSite(folder);
await serveUntilStopped(folder, port);
