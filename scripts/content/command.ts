/** How every command answers wrong use: one line of what is wrong on standard error, exit code 2. */

/** A fault of the command line, not of the content. */
export class WrongUse extends Error {}

/** Runs a command and sets the exit code that it returns. Other exceptions are faults of the program and keep their stack. */
export async function runCommand(usage: string, main: () => number | Promise<number>): Promise<void> {
  try {
    process.exitCode = await main();
  } catch (error) {
    const ofArguments = (error as { code?: string }).code?.startsWith('ERR_PARSE_ARGS');
    if (!(error instanceof WrongUse) && !ofArguments) throw error;
    process.stderr.write(`${(error as Error).message}\nUsage: ${usage}\n`);
    process.exitCode = 2;
  }
}
