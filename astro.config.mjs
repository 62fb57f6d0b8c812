import sitemap from '@astrojs/sitemap';
import { defineConfig } from 'astro/config';

// Where the site will stand: only the sitemap and canonical links need it.
const site = process.env.SITE_URL ?? 'https://lampwise.example';

/** A build hands its content over compiled, so that the texts of thousands of files need not be bundled. */
const contentHandedOver = {
  name: 'content-handed-over',
  enforce: 'pre',
  load: (id) => (process.env.LAMPWISE_CONTENT && id.endsWith('/src/content-texts.ts') ? 'export const files = [];' : null),
};

export default defineConfig({
  site,
  outDir: process.env.LAMPWISE_OUT ?? 'dist',
  cacheDir: '.cache/astro',
  publicDir: 'src/static',
  trailingSlash: 'always',
  build: { format: 'directory', inlineStylesheets: 'never', assets: 'assets' },
  devToolbar: { enabled: false },
  integrations: [sitemap({ filter: (page) => !/\/(404|search)\//.test(page) })],
  security: {
    csp: {
      directives: [
        "default-src 'none'",
        "img-src 'self' data:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "form-action 'self'",
      ],
      // Pagefind's index reader is WebAssembly.
      scriptDirective: { resources: ["'self'", "'wasm-unsafe-eval'"] },
      styleDirective: { resources: ["'self'"] },
    },
  },
  vite: {
    plugins: [contentHandedOver],
    // Scripts stay files of their own: an inlined one would need its hash on every page, and `data:` is not allowed at all.
    build: { assetsInlineLimit: 0, modulePreload: { polyfill: false } },
    // The job's worker imports the engine as modules.
    worker: { format: 'es' },
  },
});
