/** The service worker that keeps the whole site on the device: written by Workbox from what the build holds. */
import { generateSW } from 'workbox-build';

/** Writes `sw.js` into `folder`; returns how many files it keeps and their bytes. */
export async function writeServiceWorker(folder: string): Promise<{ readonly count: number; readonly size: number }> {
  const { count, size, warnings } = await generateSW({
    globDirectory: folder,
    globPatterns: ['**/*.{html,css,js,mjs,json,svg,png,woff2,webmanifest,pagefind,pf_meta,pf_index,pf_fragment,pf_filter,wasm}'],
    globIgnores: ['sw.js', '_headers', 'data/orders/**', 'data/families/**', 'data/*.schema.json', 'data/knowledge.json'],
    swDest: `${folder}/sw.js`,
    inlineWorkboxRuntime: true,
    sourcemap: false,
    mode: 'production',
    // An update waits until the reader asks for it: nothing changes under their hands.
    skipWaiting: false,
    clientsClaim: true,
    cleanupOutdatedCaches: true,
    directoryIndex: 'index.html',
    navigateFallback: '/404.html',
    ignoreURLParametersMatching: [/.*/],
    // Hashed names never change their content, so they need no revision.
    dontCacheBustURLsMatching: /\/assets\/.*\.[\w-]{8}\./,
    maximumFileSizeToCacheInBytes: 20_000_000,
  });
  if (warnings.length > 0) throw new Error(`Service worker: ${warnings.join('; ')}`);
  return { count, size };
}
