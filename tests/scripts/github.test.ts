import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { project } from './command-line.ts';

// The parser imports its JSON without the attribute that Node wants; bundlers, for which it is made, do not mind.
registerHooks({
  load: (url, context, next) => next(url, url.endsWith('.json') ? { ...context, importAttributes: { type: 'json' } } : context),
});
const { convertWorkflowTemplate, NoOperationTraceWriter, parseWorkflow } = await import('@actions/workflow-parser');

const folder = join(project, '.github');

/** Errors that the parser of the workflow service's own language server finds. */
async function errorsOf(name: string, content: string): Promise<string[]> {
  const { context, value } = parseWorkflow({ name, content }, new NoOperationTraceWriter());
  if (!value) return context.errors.getErrors().map((error) => error.message);
  const template = await convertWorkflowTemplate(context, value);
  return [...context.errors.getErrors().map((error) => error.message), ...(template.errors ?? []).map((error) => error.Message)];
}

describe('the workflows', () => {
  const files = readdirSync(join(folder, 'workflows'));

  it.each(files)('%s is valid to the official parser', async (name) => {
    expect(await errorsOf(name, readFileSync(join(folder, 'workflows', name), 'utf8'))).toEqual([]);
  });

  it('are read by a parser that does find faults', async () => {
    const text = readFileSync(join(folder, 'workflows/site.yaml'), 'utf8');
    expect(await errorsOf('x.yaml', text.replace('runs-on: ubuntu-latest', 'run-on: ubuntu-latest'))).not.toEqual([]);
    expect(await errorsOf('x.yaml', text.replace('needs: [content, test]', 'needs: [content, tests]'))).not.toEqual([]);
    expect(await errorsOf('x.yaml', text.replace('${{ steps', '${{ stepss('))).not.toEqual([]);
  });

  it('run only commands that the project has', () => {
    const { scripts } = JSON.parse(readFileSync(join(project, 'package.json'), 'utf8')) as { scripts: Record<string, string> };
    for (const name of files)
      for (const [, command] of readFileSync(join(folder, 'workflows', name), 'utf8').matchAll(/npm (?:run (?:--silent )?)?([a-z]+)/g))
        expect([...Object.keys(scripts), 'ci'], `${name}: npm ${command}`).toContain(command);
  });

  it('give no job more than it needs, and let nothing of a pull request into a command line', () => {
    const text = readFileSync(join(folder, 'workflows/site.yaml'), 'utf8');
    const workflow = parse(text) as { permissions: object; jobs: Record<string, { permissions?: object; steps: { run?: string }[] }> };
    expect(workflow.permissions).toEqual({ contents: 'read' });
    expect(Object.values(workflow.jobs).filter((job) => job.permissions)).toHaveLength(1);
    for (const job of Object.values(workflow.jobs)) for (const { run } of job.steps) expect(run ?? '').not.toContain('${{');
    expect(text).not.toContain('pull_request_target');
  });
});

/** As the page "Syntax for GitHub's form schema" of docs.github.com says. */
const text = z.string().min(1);
const id = z.string().regex(/^[A-Za-z0-9_-]+$/);
const validations = z.strictObject({ required: z.boolean() }).optional();
const labelled = { label: text, description: text.optional() };
const written = z.strictObject({ ...labelled, placeholder: text.optional(), value: text.optional() });
const element = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('markdown'), attributes: z.strictObject({ value: text }) }),
  z.strictObject({ type: z.literal('input'), id, attributes: written, validations }),
  z.strictObject({ type: z.literal('textarea'), id, attributes: written.extend({ render: text.optional() }), validations }),
  z.strictObject({
    type: z.literal('dropdown'),
    id,
    attributes: z.strictObject({
      ...labelled,
      multiple: z.boolean().optional(),
      options: z.array(text).min(1),
      default: z.number().int().optional(),
    }),
    validations,
  }),
  z.strictObject({
    type: z.literal('checkboxes'),
    id,
    attributes: z.strictObject({ ...labelled, options: z.array(z.strictObject({ label: text, required: z.boolean().optional() })).min(1) }),
    validations,
  }),
]);
const form = z.strictObject({
  name: text,
  description: text,
  title: text.optional(),
  labels: z.array(text).optional(),
  body: z.array(element).min(1),
});

describe('the issue forms', () => {
  const names = readdirSync(join(folder, 'ISSUE_TEMPLATE')).filter((name) => name !== 'config.yml');

  it('are a wrong fact, a missing cause and a new family', () => {
    expect(names).toEqual(['missing-cause.yml', 'new-family.yml', 'wrong-fact.yml']);
  });

  it.each(names)('%s keeps to the published form schema', (name) => {
    const value = form.parse(parse(readFileSync(join(folder, 'ISSUE_TEMPLATE', name), 'utf8')));
    const ids = value.body.flatMap((part) => ('id' in part ? [part.id] : []));
    expect(new Set(ids).size).toBe(ids.length);
    for (const part of value.body)
      if (part.type === 'dropdown') expect(new Set(part.attributes.options).size).toBe(part.attributes.options.length);
  });
});

describe('the pull-request template', () => {
  it('names commands that exist and stays short', () => {
    const lines = readFileSync(join(folder, 'pull_request_template.md'), 'utf8').split('\n');
    expect(lines.length).toBeLessThan(20);
    expect(existsSync(join(project, 'scripts/diff.ts'))).toBe(true);
  });
});
