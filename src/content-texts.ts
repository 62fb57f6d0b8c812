/** The texts of content/ as they stand; their import keeps `npm run dev` live. A build that hands its content over gets none. */
import type { ContentFile } from './model/problem.ts';

const texts = import.meta.glob<string>('/content/*/*.yaml', { query: '?raw', import: 'default', eager: true });

export const files: readonly ContentFile[] = Object.entries(texts)
  .map(([path, text]) => ({ path: path.slice(1), text }))
  .sort((a, b) => (a.path < b.path ? -1 : 1));
