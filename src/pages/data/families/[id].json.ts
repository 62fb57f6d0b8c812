import { familyExport } from '../../../compile/export.ts';
import { catalogue, content } from '../../../site.ts';

export const getStaticPaths = () => [...content.families.keys()].map((id) => ({ params: { id } }));

export const GET = ({ params }: { params: { id: string } }) => Response.json(familyExport(catalogue, params.id));
