/** The card of a repair, fetched when the first repair comes up. */
import { Later } from './Later.tsx';
import type { RepairProps } from './RepairStep.tsx';

const load = () => import('./RepairStep.tsx').then(({ RepairStep }) => RepairStep);

export const Repair = (props: RepairProps) => <Later load={load} props={props} />;
