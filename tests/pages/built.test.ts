import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { builtSite } from '../browser.ts';
import { allFiles, allPages, attributes } from './built-pages.ts';

const pages = allPages();
const files = new Set(allFiles());

describe('the built pages', () => {
  test('there are pages of every kind', () => {
    const kinds = new Set(pages.map((page) => page.path.split('/')[1]));
    for (const kind of [
      'codes',
      'families',
      'causes',
      'checks',
      'symptoms',
      'conditions',
      'tools',
      'cautions',
      'set-ups',
      'parts',
      'terms',
      'monitors',
      'sources',
      'recent-work',
      'evidence',
      'bench',
      'errors',
      'about',
      'contribute',
      'search',
      'data',
      'job',
      '404.html',
    ])
      expect(kinds, kind).toContain(kind);
  });

  test('every link, picture and script within the site leads somewhere, fragments included', () => {
    const ids = new Map(pages.map((page) => [page.path, new Set(attributes(page.html, 'id'))]));
    const broken: string[] = [];
    for (const page of pages)
      for (const target of [...attributes(page.html, 'href'), ...attributes(page.html, 'src')]) {
        if (/^(https?:|data:|mailto:)/.test(target)) continue;
        const url = new URL(target, `http://site${page.path}`);
        const path = decodeURIComponent(url.pathname);
        const known = path.endsWith('/') ? ids.has(path) : files.has(path);
        if (!known) broken.push(`${page.path} -> ${target}`);
        else if (url.hash.length > 1 && path !== '/job/' && ids.has(path) && !ids.get(path)!.has(decodeURIComponent(url.hash.slice(1))))
          broken.push(`${page.path} -> ${target} (no such place)`);
      }
    expect(broken.slice(0, 20)).toEqual([]);
  });

  test('no id stands twice on a page, and each page has one first heading, a title and a description', () => {
    for (const { path, html } of pages) {
      const ids = attributes(html, 'id');
      expect(
        ids.filter((id, index) => ids.indexOf(id) !== index),
        path,
      ).toEqual([]);
      expect(html.match(/<h1[\s>]/g), path).toHaveLength(1);
      expect(html.match(/<title>([^<]+)<\/title>/)?.[1]?.length, path).toBeGreaterThan(3);
      expect(
        attributes(html, 'content').some((text) => text.length > 10),
        path,
      ).toBe(true);
    }
  });

  test('no page holds what its own policy would block: inline handlers, style attributes, script from elsewhere', () => {
    for (const { path, html } of pages) {
      expect(html, path).toMatch(/http-equiv="content-security-policy"/i);
      const policy = html.match(/http-equiv="content-security-policy" content="([^"]+)"/i)?.[1] ?? '';
      expect(policy, path).not.toMatch(/unsafe-inline|'unsafe-eval'/);
      expect(html.match(/<[^>]+\son[a-z]+=/i), path).toBeNull();
      expect(html.match(/<[^>]+\sstyle=/i), path).toBeNull();
      expect(html.match(/<style[\s>]/i), path).toBeNull();
      expect(
        attributes(html, 'src').filter((source) => /^(https?:)?\/\//.test(source)),
        path,
      ).toEqual([]);
    }
  });

  test('no diagram code reaches the browser', () => {
    for (const file of files) {
      if (!/\.(m?js|html)$/.test(file)) continue;
      expect(/mermaid/i.test(readFileSync(join(builtSite, file), 'utf8')), file).toBe(false);
    }
  });

  test('the sitemap names every page that may be found', () => {
    const map = [...files]
      .filter((file) => /^\/sitemap-\d+\.xml$/.test(file))
      .map((file) => readFileSync(join(builtSite, file), 'utf8'))
      .join('');
    const named = new Set([...map.matchAll(/<loc>([^<]+)<\/loc>/g)].map((match) => new URL(match[1]!).pathname));
    const wanted = pages.map((page) => page.path).filter((path) => path !== '/404.html' && path !== '/search/');
    expect(wanted.filter((path) => !named.has(path))).toEqual([]);
  });

  test('both ways: a check that a cause names also names that cause', () => {
    const linked = (page: { html: string }, kind: string) =>
      new Set(
        attributes(page.html, 'href').filter((href) => href.startsWith(`/${kind}/`) && href.split('/').length === 4 && href.split('/')[2]),
      );
    const byPath = new Map(pages.map((page) => [page.path, page]));
    let seen = 0;
    for (const page of pages.filter(({ path }) => /^\/checks\/[a-z0-9-]+\/$/.test(path)))
      for (const cause of linked(page, 'causes')) {
        seen += 1;
        expect(linked(byPath.get(cause)!, 'checks'), `${cause} -> ${page.path}`).toContain(page.path);
      }
    expect(seen).toBeGreaterThan(500);
  });

  test('cautions stand before the steps that they are about', () => {
    let seen = 0;
    for (const { path, html } of pages.filter(({ path }) => /^\/checks\/[a-z0-9-]+\/$/.test(path))) {
      const caution = html.indexOf('class="caution ');
      if (caution < 0) continue;
      seen += 1;
      expect(caution, path).toBeLessThan(html.indexOf('class="work-steps"'));
    }
    expect(seen).toBeGreaterThan(50);
  });
});
