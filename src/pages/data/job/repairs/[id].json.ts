import { repairCard } from '../../../../compile/job-cards.ts';
import type { RepairCard } from '../../../../job/card-types.ts';
import { catalogue, content } from '../../../../site.ts';

export const getStaticPaths = () => [...content.causes.keys()].map((id) => ({ params: { id } }));

/** The card of the repair of one cause. */
export const GET = ({ params }: { params: { id: string } }) => Response.json(repairCard(catalogue, params.id) satisfies RepairCard);
