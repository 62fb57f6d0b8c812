import { knowledgeExport } from '../../compile/export.ts';
import { catalogue } from '../../site.ts';

export const GET = () => Response.json(knowledgeExport(catalogue));
