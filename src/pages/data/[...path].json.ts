import { type DataFile, dataFiles } from '../../data-files.ts';
import { catalogue, isBuild, orderOfCode } from '../../site.ts';

export const getStaticPaths = () =>
  // A build writes these files itself.
  isBuild ? [] : dataFiles(catalogue, orderOfCode).map((file) => ({ params: { path: file.path }, props: { file } }));

export const GET = ({ props }: { props: { file: DataFile } }) => Response.json(props.file.value());
