import { orderExport } from '../../../compile/export.ts';
import { defaultCase } from '../../../engine/default-case.ts';
import { catalogue, knowledge, orderOfCode } from '../../../site.ts';

export const getStaticPaths = () => Object.keys(knowledge.codes).map((code) => ({ params: { code: code.toLowerCase() }, props: { code } }));

export const GET = ({ props }: { props: { code: string } }) => {
  const { formulation, order } = orderOfCode(props.code);
  return Response.json(orderExport(catalogue, props.code, defaultCase([props.code], knowledge), formulation, order));
};
