import highsLoader from 'highs';
import { describe, expect, it } from 'vitest';
import { plan, type TroubleshootingModel } from '../../../src/engine/plan/index.ts';
import {
  afterCheck,
  afterFailedRepair,
  checkIsOpen,
  costNow,
  type Job,
  mass,
  repairIsOpen,
  startJob,
} from '../../../src/engine/plan/job.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

/**
 * The planning problem as a linear program over histories: x(history, action) is how often the action is chosen there,
 * what flows into a history is chosen away, and the costs are least. Null when there are too many histories.
 */
function historiesProgram(model: TroubleshootingModel, mostHistories: number): string | null {
  const costs: string[] = [];
  const rows: string[] = [];
  let variables = 0;
  const visit = (job: Job, inflow: string): void => {
    const reach = mass(job);
    if (rows.length > mostHistories) return;
    const row = rows.push('') - 1;
    const chosen: string[] = [];
    const choose = (cost: number, after: readonly Job[]): void => {
      const x = `x${variables++}`;
      chosen.push(`+ ${x}`);
      costs.push(`+ ${(cost).toFixed(12)} ${x}`);
      for (const next of after) if (mass(next) > 0) visit(next, `- ${(mass(next) / reach).toFixed(12)} ${x}`);
    };
    choose(model.handOverCost, []);
    model.checks.forEach((check, c) => {
      if (checkIsOpen(model, job, c)) choose(costNow(model, job, check), afterCheck(model, job, c));
    });
    model.repairs.forEach((repair, r) => {
      if (repairIsOpen(model, job, r)) choose(costNow(model, job, repair), [afterFailedRepair(model, job, r)]);
    });
    rows[row] = ` h${row}: ${chosen.join(' ')} ${inflow} = ${inflow === '' ? 1 : 0}`;
  };
  visit(startJob(model), '');
  return rows.length > mostHistories ? null : `Minimize\n obj: ${costs.join('\n ')}\nSubject To\n${rows.join('\n')}\nEnd`;
}

describe('a linear program over histories', () => {
  it('has the same optimum as the exact search', async () => {
    const highs = await highsLoader();
    let compared = 0;
    for (let start = 1; compared < 60; start++) {
      const model = smallModel(seeded(start));
      const program = model.checks.length > 0 ? historiesProgram(model, 1500) : null;
      if (!program) continue;
      const solution = highs.solve(program);
      expect(solution.Status).toBe('Optimal');
      expect(Math.abs(solution.ObjectiveValue - plan(model, { nodes: 20_000 }).expectedCost), `model ${start}`).toBeLessThan(1e-5);
      compared++;
    }
  });
});
