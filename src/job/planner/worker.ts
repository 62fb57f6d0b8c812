/** Plans beside the page. A newer request drops the one that has not begun. */
/// <reference lib="webworker" />
import type { Knowledge } from '../../engine/knowledge.ts';
import type { Request, Response } from './protocol.ts';
import { compareNow, planLonger, planNow, rankNow } from './rank.ts';

declare const self: DedicatedWorkerGlobalScope;

/** After this long no finer plan is begun. */
const planMilliseconds = 80;

let knowledge: Knowledge | null = null;
let latest = 0;
const say = (response: Response) => self.postMessage(response);
/** Lets waiting messages in, so that `latest` is known before the next piece of work. */
const breathe = () => new Promise((resolve) => setTimeout(resolve));

self.onmessage = async ({ data }: MessageEvent<Request>) => {
  if (data.kind === 'knowledge') {
    knowledge = data.knowledge;
    return;
  }
  const { turn, situation } = data;
  latest = Math.max(latest, turn);
  await breathe();
  if (turn < latest || !knowledge) return;
  try {
    const start = performance.now();
    if (data.kind === 'compare') {
      const orders = compareNow(rankNow(situation, knowledge).formulation);
      say({ kind: 'orders', turn, orders, milliseconds: performance.now() - start });
      return;
    }
    const { formulation, proposals } = rankNow(situation, knowledge);
    say({ kind: 'proposals', turn, proposals, milliseconds: performance.now() - start });
    await breathe();
    if (turn < latest) return;
    const begun = performance.now();
    const { outlook } = planNow(formulation, knowledge, () => performance.now() - begun > planMilliseconds);
    say({ kind: 'outlook', turn, outlook, milliseconds: performance.now() - begun });
    await breathe();
    if (turn < latest) return;
    const again = performance.now();
    const longer = await planLonger(formulation, knowledge);
    say({ kind: 'refined', turn, outlook: longer.outlook, milliseconds: performance.now() - again });
  } catch (error) {
    say({ kind: 'failed', turn, message: (error as Error).message });
  }
};
