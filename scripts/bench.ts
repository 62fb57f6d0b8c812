/** npm run bench -- NAME [options]: prints the tables of scripts/bench/NAME.ts. Without a name, says which there are. */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';

const [name, ...rest] = process.argv.slice(2);
const benches = readdirSync('scripts/bench')
  .filter((file) => file.endsWith('.ts') && readFileSync(`scripts/bench/${file}`, 'utf8').includes('npm run bench'))
  .map((file) => file.replace('.ts', ''));
if (!name || !benches.includes(name)) {
  console.error(`${name ? `No such bench: ${name}. ` : ''}There are: ${benches.join(', ')}. Use: npm run bench -- ${benches[0] ?? 'NAME'}`);
  process.exit(2);
}
process.exitCode = spawnSync(process.execPath, [`scripts/bench/${name}.ts`, ...rest], { stdio: 'inherit' }).status ?? 1;
