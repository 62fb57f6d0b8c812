import { checkCard } from '../../../../compile/job-cards.ts';
import type { CheckCard } from '../../../../job/card-types.ts';
import { catalogue, content } from '../../../../site.ts';

export const getStaticPaths = () => [...content.checks.keys()].map((id) => ({ params: { id } }));

/** The card of one check. */
export const GET = ({ params }: { params: { id: string } }) => Response.json(checkCard(catalogue, params.id) satisfies CheckCard);
