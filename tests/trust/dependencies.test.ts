/** What the project stands on: licences of all packages in the lock file, install scripts, checksums, exact versions. */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

interface Locked {
  readonly version?: string;
  readonly license?: string;
  readonly integrity?: string;
  readonly link?: boolean;
  readonly hasInstallScript?: boolean;
}
const lock = JSON.parse(readFileSync('package-lock.json', 'utf8')) as { packages: Record<string, Locked> };
const project = JSON.parse(readFileSync('package.json', 'utf8')) as {
  dependencies: Record<string, string>;
  devDependencies: Record<string, string>;
  allowScripts: Record<string, boolean>;
};
const packages = Object.entries(lock.packages)
  .filter(([path]) => path !== '')
  .map(([path, locked]) => ({ name: path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length), ...locked }));

/** SPDX names that may be used anywhere: they ask for a notice at most. */
const allowed = new Set([
  'MIT',
  'ISC',
  '0BSD',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'Apache-2.0',
  'BlueOak-1.0.0',
  'Python-2.0',
  'Unlicense',
  'CC0-1.0',
]);

/** Other licences, each with the packages that have it and why that is no burden on the site or on whoever builds it. */
const explained: Readonly<Record<string, { readonly packages: RegExp; readonly why: string }>> = {
  'OFL-1.1': { packages: /^@fontsource-variable\/atkinson-hyperlegible-/, why: 'the typeface; shipped unchanged under its own name' },
  'CC-BY-4.0': { packages: /^caniuse-lite$/, why: 'data that build tools read; no part of the site' },
  'MPL-2.0': { packages: /^(lightningcss|axe-core|@axe-core)/, why: 'build and test tools, unchanged; no part of the site' },
  'LGPL-3.0-or-later': { packages: /^@img\/sharp-/, why: 'an optional picture library of the page builder; unused, no part of the site' },
  'EPL-2.0': { packages: /^elkjs$/, why: 'a layout that the diagram tool could load; unused, no part of the site' },
};
/** Packages whose lock entry names no licence, and the one in their own folder. */
const inTheirFolder: Readonly<Record<string, string>> = { khroma: 'MIT' };

/** Whether one way of reading an SPDX expression is allowed. AND binds closer than OR; there are no deeper brackets. */
function accepts(expression: string, name: string): boolean {
  const one = (licence: string) => allowed.has(licence) || (explained[licence]?.packages.test(name) ?? false);
  return expression
    .replaceAll(/[()]/g, '')
    .split(' OR ')
    .some((choice) => choice.split(' AND ').every(one));
}

describe('licences', () => {
  test('an expression is accepted only when all that it asks for is', () => {
    expect(accepts('MIT', 'a')).toBe(true);
    expect(accepts('(GPL-3.0-only OR MIT)', 'a')).toBe(true);
    expect(accepts('MIT AND GPL-3.0-only', 'a')).toBe(false);
    expect(accepts('LGPL-3.0-or-later', 'a')).toBe(false);
    expect(accepts('UNLICENSED', 'a')).toBe(false);
  });

  test('of every package in the lock file are allowed, or explained by name', () => {
    const licenceOf = ({ name, license }: { name: string; license?: string }) => license ?? inTheirFolder[name] ?? 'none named';
    const counts = [...Map.groupBy(packages, licenceOf)].sort((a, b) => b[1].length - a[1].length);
    console.log(`${packages.length} packages: ${counts.map(([licence, list]) => `${licence} ${list.length}`).join(', ')}`);
    expect(packages.length).toBeGreaterThan(100);
    expect(packages.filter((one) => !accepts(licenceOf(one), one.name)).map((one) => `${one.name}: ${licenceOf(one)}`)).toEqual([]);
  });

  test('that stand only in a folder are what is said of them', () => {
    for (const [name, licence] of Object.entries(inTheirFolder)) {
      const file = ['license', 'LICENSE', 'LICENSE.md'].map((title) => `node_modules/${name}/${title}`).find(existsSync)!;
      expect(readFileSync(file, 'utf8')).toContain(licence);
    }
  });

  test('that are explained are still in use', () => {
    for (const [licence, { packages: names }] of Object.entries(explained))
      expect(
        packages.some(({ name, license }) => license?.includes(licence) && names.test(name)),
        licence,
      ).toBe(true);
  });
});

describe('the lock file', () => {
  test('has a checksum for every package', () => {
    expect(packages.filter(({ integrity, link }) => !integrity && !link).map(({ name }) => name)).toEqual([]);
  });

  test('lets only those packages run a script when they are installed that are allowed to by name', () => {
    const allowedByName = Object.keys(project.allowScripts).filter((name) => project.allowScripts[name]);
    const optional = /^fsevents$/;
    const scripted = [...new Set(packages.filter((one) => one.hasInstallScript && !optional.test(one.name)).map(({ name }) => name))];
    expect(scripted.sort()).toEqual(allowedByName.sort());
  });

  test('holds the exact versions that package.json names', () => {
    for (const [name, version] of Object.entries({ ...project.dependencies, ...project.devDependencies })) {
      expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
      expect(lock.packages[`node_modules/${name}`]?.version, name).toBe(version);
    }
  });
});
