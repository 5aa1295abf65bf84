import { Button } from './button.tsx';
import { type FormKeys, PostForm } from './form.tsx';

export type PlanStanding =
  | { readonly state: 'none' }
  | { readonly state: 'current'; readonly madeOn: string }
  | { readonly state: 'outdated'; readonly madeOn: string }
  | {
      readonly state: 'running';
      readonly progress: string;
      /** Bound over best plan so far, 0 to 1; null before the first plan. */
      readonly nearness: number | null;
    }
  /** There is a plan; it is being played against sampled years. */
  | { readonly state: 'checking' }
  | { readonly state: 'failed'; readonly words: string };

export interface PlanStatusProps {
  readonly standing: PlanStanding;
  /** How good the plan is, in plain words; null without a plan. */
  readonly quality: PlanQuality | null;
  readonly keys: FormKeys;
  /** The page a plain form comes back to. */
  readonly back: string;
}

export interface PlanQuality {
  readonly sentence: string;
  /** How often things lasted in sampled years; null until the plan was played against them. */
  readonly reached: string | null;
  readonly figures: readonly { readonly words: string; readonly value: string }[];
}

const sentenceFor = (standing: PlanStanding): string => {
  switch (standing.state) {
    case 'none':
      return 'There is no plan yet.';
    case 'current':
      return `Planned on ${standing.madeOn}. Nothing has changed since.`;
    case 'outdated':
      return `This plan is from ${standing.madeOn}. Something has changed since, so it is out of date.`;
    case 'running':
      return `Planning the year. ${standing.progress}`;
    case 'checking':
      return 'The plan is here. It is now played against possible years; where something would run out too often, more of it is put up.';
    case 'failed':
      return standing.words;
  }
};

/** How the plan stands, and the way to a new one. While one is being made it asks again every second. */
export const PlanStatus = ({ standing, quality, keys, back }: PlanStatusProps) => (
  <div
    id="plan-status"
    class={`plan-status plan-${standing.state}`}
    role="status"
    {...(standing.state === 'running' || standing.state === 'checking'
      ? {
          'hx-get': `/plan/status?back=${encodeURIComponent(back)}&shown=${standing.state}`,
          'hx-trigger': standing.state === 'running' ? 'every 1s' : 'every 3s',
          'hx-target': '#plan-status',
          'hx-swap': 'outerHTML',
        }
      : {})}
  >
    <p>{sentenceFor(standing)}</p>
    {standing.state === 'running' ? (
      <>
        {standing.nearness === null ? (
          <span class="plan-progress" aria-hidden="true" />
        ) : (
          <progress
            class="plan-nearness"
            value={standing.nearness.toFixed(3)}
            max="1"
            aria-label="How near the best plan yet is to one that cannot be bettered"
          />
        )}
        <PostForm action="/plan/stop" keys={keys} replaces="#plan-status" class="plan-again">
          <input type="hidden" name="back" value={back} />
          <Button weight="quiet">Stop planning</Button>
        </PostForm>
        <noscript>
          <p>
            <a href={back}>See whether it is done</a>
          </p>
        </noscript>
      </>
    ) : (
      <PostForm action="/plan" keys={keys} replaces="#plan-status" class="plan-again">
        <input type="hidden" name="back" value={back} />
        <Button weight={standing.state === 'current' || standing.state === 'checking' ? 'quiet' : 'main'}>
          {standing.state === 'none' ? 'Plan the year' : 'Plan again'}
        </Button>
      </PostForm>
    )}
    {quality === null ? null : (
      <details class="plan-quality">
        <summary>How good is this plan?</summary>
        <p>{quality.sentence}</p>
        {quality.reached === null ? null : <p>{quality.reached}</p>}
        <dl class="facts">
          {quality.figures.map((figure) => (
            <div key={figure.words}>
              <dt>{figure.words}</dt>
              <dd>{figure.value}</dd>
            </div>
          ))}
        </dl>
      </details>
    )}
  </div>
);
