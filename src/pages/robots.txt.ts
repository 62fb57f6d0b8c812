import type { APIContext } from 'astro';

export const GET = ({ site }: APIContext) => new Response(`User-agent: *\nAllow: /\nSitemap: ${new URL('/sitemap-index.xml', site)}\n`);
