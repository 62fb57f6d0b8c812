/** What `npm start` and `npm run serve` share: the port, its refusal, and serving until a signal. */
import { parseArgs } from 'node:util';
import { PortInUse, portIsFree, startServer } from './server.ts';

const defaultPort = 4321;

/** Reads --port N (or PORT) and --folder DIR. Wrong use ends with code 2. */
export function chosenPort(args: readonly string[]): { readonly folder: string; readonly port: number } {
  try {
    const { values } = parseArgs({ args: [...args], options: { port: { type: 'string' }, folder: { type: 'string', default: 'dist' } } });
    const text = values.port ?? (process.env['PORT'] || String(defaultPort));
    const port = Number(text);
    if (!/^\d+$/.test(text) || port > 65_535)
      throw new Error(`--port ${text} is not a port: a whole number from 0 to 65535 (0 takes any free one).`);
    return { folder: values.folder, port };
  } catch (error) {
    console.error((error as Error).message);
    process.exit(2);
  }
}

const taken = (port: number): string =>
  `Port ${port} is in use by another program. Stop it, or choose another: npm start -- --port ${port + 1}`;

export async function refuseTakenPort(port: number): Promise<void> {
  if (await portIsFree(port)) return;
  console.error(taken(port));
  process.exit(1);
}

/** Serves until SIGINT or SIGTERM, then stops cleanly. */
export async function serveUntilStopped(folder: string, port: number): Promise<void> {
  try {
    const { address, stop } = await startServer(folder, port);
    console.log(`Lampwise is at ${address}  (Ctrl+C stops it)`);
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void stop().then(() => process.exit(0)));
  } catch (error) {
    console.error(error instanceof PortInUse ? taken(port) : `The server could not start: ${(error as Error).message}`);
    process.exit(1);
  }
}
