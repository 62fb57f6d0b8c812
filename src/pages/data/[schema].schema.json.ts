import { exportSchemas } from '../../compile/export-schemas.ts';

export const getStaticPaths = () => Object.keys(exportSchemas).map((schema) => ({ params: { schema } }));

export const GET = ({ params }: { params: { schema: string } }) =>
  Response.json(exportSchemas[params.schema as keyof typeof exportSchemas]);
