import { sheets as benches } from '../../../../bench/sheets/index.ts';
import { checkCard } from '../../../../compile/job-cards.ts';
import type { CheckCard } from '../../../../job/card-types.ts';
import { catalogue, content } from '../../../../site.ts';

export const getStaticPaths = () => [...content.checks.keys()].map((id) => ({ params: { id } }));

/** The card of one check, with the calculators that serve it. */
export const GET = ({ params: { id } }: { params: { id: string } }) =>
  Response.json({
    ...checkCard(catalogue, id),
    sums: benches.filter(({ checks }) => checks.includes(id)).map((bench) => ({ title: bench.title, href: `/bench/${bench.id}/` })),
  } satisfies CheckCard);
