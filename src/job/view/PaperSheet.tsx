/** The job sheet on paper: what is known, what is ruled out and by what reading, what comes next, with boxes to fill in by hand. */

import { useSession } from './context.ts';
import { duration, money, percent } from './figures.ts';
import { causeTitle, entryText } from './words.ts';

export function PaperSheet() {
  const session = useSession();
  const { job, data } = session;
  const { knowledge, words } = data;
  const { inputs, timeline, name, startedAt } = job.value;
  const title = <T extends { readonly id: string; readonly title: string }>(list: readonly T[], id: string) =>
    list.find((item) => item.id === id)?.title ?? id;
  const traits = Object.entries(inputs.traits).map(
    ([id, value]) => words.traits.find((trait) => trait.id === id)?.values.find((known) => known.id === value)?.title ?? value,
  );
  const symptoms = Object.entries(inputs.symptoms);
  // After a repair what comes next is its proof, not the next check.
  const searching = session.stage.value.name === 'search';
  const steps = searching ? (session.planner.outlook.value?.steps ?? []).slice(0, 8) : [];
  return (
    <section class="paper" aria-hidden="true">
      <h1>Job sheet{name && `: ${name}`}</h1>
      <table class="paper-facts">
        <tbody>
          <Row label="Begun" value={startedAt > 0 ? new Date(startedAt).toLocaleDateString() : ''} />
          <Row label="Codes" value={inputs.codes.map((code) => `${code} ${knowledge.codes[code]?.title ?? ''}`).join('; ')} />
          <Row
            label="Car"
            value={[inputs.modelYear ?? '', inputs.cylinders ? `${inputs.cylinders} cylinders` : '', ...traits].filter(Boolean).join(', ')}
          />
          <Row
            label="Notices"
            value={symptoms
              .filter(([, presence]) => presence === 'present')
              .map(([id]) => title(words.symptoms, id))
              .join('; ')}
          />
          <Row
            label="Does not"
            value={symptoms
              .filter(([, presence]) => presence === 'absent')
              .map(([id]) => title(words.symptoms, id))
              .join('; ')}
          />
          <Row label="Worked on last" value={inputs.recentWork.map((id) => title(words.recentWork, id)).join('; ')} />
          <Row label="Replaced" value={inputs.replaced.map(({ part }) => title(words.parts, part)).join('; ')} />
          <Row label="Kilometres or miles" value="" />
        </tbody>
      </table>
      <h2>Done, and what it showed</h2>
      <table>
        <thead>
          <tr>
            <th>Step</th>
            <th>Result, reading</th>
          </tr>
        </thead>
        <tbody>
          {timeline.map((entry) => {
            const { title: step, said } = entryText(entry, knowledge);
            return (
              <tr key={entry.id}>
                <td>{step}</td>
                <td>
                  {said}
                  {entry.note && `; ${entry.note}`}
                </td>
              </tr>
            );
          })}
          {timeline.length === 0 && (
            <tr>
              <td colSpan={2}>Nothing yet.</td>
            </tr>
          )}
        </tbody>
      </table>
      <h2>Likeliest now</h2>
      <p>
        {session.belief.value.causes
          .slice(0, 6)
          .map(({ id, probability }) => `${causeTitle(id, knowledge)} ${percent(probability)}`)
          .join('; ')}
      </p>
      {steps.length > 0 && (
        <>
          <h2>Next, while everything comes back good</h2>
          <table>
            <thead>
              <tr>
                <th>Done</th>
                <th>Step</th>
                <th>Takes</th>
                <th>Costs</th>
                <th>Result, reading</th>
              </tr>
            </thead>
            <tbody>
              {steps.map((step) => (
                <tr key={`${step.kind} ${step.id}`}>
                  <td class="tick-box" />
                  <td>{step.title}</td>
                  <td class="paper-figure">{duration(step.attendedMinutes)}</td>
                  <td>{money(step.money)}</td>
                  <td class="blank-line">
                    {step.kind === 'check' &&
                      knowledge.checks[step.id]!.outcomes.map((outcome) => (
                        <span key={outcome.id} class="paper-outcome">
                          ☐ {outcome.title}
                        </span>
                      ))}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
      {session.stage.value.name === 'proof' && (
        <>
          <h2>Proof</h2>
          <p>☐ Codes written down and cleared ☐ Relearned ☐ Monitors have run ☐ No pending code</p>
          <p>Readings of the odometer, code-free: ____________ ____________ ____________ ____________</p>
        </>
      )}
      <h2>Notes</h2>
      <div class="note-lines" />
    </section>
  );
}

const Row = ({ label, value }: { readonly label: string; readonly value: string | number }) => (
  <tr>
    <th scope="row">{label}</th>
    <td>{value}</td>
  </tr>
);
