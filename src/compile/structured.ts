/** Structured data of schema.org: an article and the path to it. */

/** `TechArticle` with a `BreadcrumbList`; the last crumb is the page itself. */
export function breadcrumbs(
  site: URL | undefined,
  crumbs: readonly (readonly [name: string, path: string])[],
  description: string,
): object {
  const absolute = (path: string) => new URL(path, site).href;
  const [name, path] = crumbs.at(-1)!;
  return {
    '@context': 'https://schema.org',
    '@type': 'TechArticle',
    headline: name.slice(0, 110),
    description,
    url: absolute(path),
    inLanguage: 'en',
    license: 'https://creativecommons.org/licenses/by/4.0/',
    breadcrumb: {
      '@type': 'BreadcrumbList',
      itemListElement: crumbs.map(([crumb, to], index) => ({ '@type': 'ListItem', position: index + 1, name: crumb, item: absolute(to) })),
    },
  };
}
