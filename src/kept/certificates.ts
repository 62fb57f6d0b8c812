/** Plans found with long budgets by `npm run prove`, kept in content/certificates/ and used only for exactly their model. */
import { readdirSync, readFileSync } from 'node:fs';
import { type Certificate, modelFingerprint, type Plan, planFrom, type TroubleshootingModel } from '../engine/plan/index.ts';

export const certificateFolder = 'content/certificates';

let byModel: ReadonlyMap<string, Certificate> | null = null;

/** Certificates by fingerprint of their model. A file that cannot be read certifies nothing. */
function certificates(): ReadonlyMap<string, Certificate> {
  byModel ??= new Map(
    certificateFiles()
      .flatMap((name) => readCertificates(`${certificateFolder}/${name}`))
      .map((certificate) => [certificate.model, certificate]),
  );
  return byModel;
}

function certificateFiles(): string[] {
  try {
    return readdirSync(certificateFolder)
      .filter((name) => name.endsWith('.json'))
      .sort();
  } catch {
    return [];
  }
}

export function readCertificates(path: string): Certificate[] {
  try {
    const list: unknown = JSON.parse(readFileSync(path, 'utf8'));
    return Array.isArray(list)
      ? (list as Certificate[]).filter((entry) => typeof entry?.model === 'string' && typeof entry?.policy === 'string')
      : [];
  } catch {
    return [];
  }
}

/** The certificate that names this model, or none. Whether it holds is not looked at. */
export const certificateFor = (model: TroubleshootingModel): Certificate | undefined => certificates().get(modelFingerprint(model));

/** The certificate for this model, if its policy costs what it says; with the plan that it certifies. */
export function certifiedPlan(model: TroubleshootingModel): { readonly plan: Plan; readonly certificate: Certificate } | null {
  const certificate = certificateFor(model);
  const plan = certificate ? planFrom(certificate, model) : null;
  return certificate && plan ? { plan, certificate } : null;
}
