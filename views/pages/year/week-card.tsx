import { WeekCursor, type YearAxis } from '../../charts/year-picture.tsx';
import { Button } from '../../parts/button.tsx';

/** One week of the plan: what is done in it, hours, money, jars. */
export interface WeekCardProps {
  readonly axis: YearAxis;
  /** Its place in the year, from 0 on. */
  readonly at: number;
  /** `Week of Aug 15, 2027` */
  readonly title: string;
  readonly lines: readonly { readonly what: string; readonly words: string }[];
}

const addressOf = (at: number): string => `/year/weeks?at=${at}`;

/** The card of the week chosen on the axis, and the week marked through all boards; null before one is chosen. */
export const WeekCard = ({ card }: { card: WeekCardProps | null }) => (
  <div id="week-card" role="status">
    {card === null ? (
      <p class="week-hint quiet small">Slide along the months to see what to do each week.</p>
    ) : (
      <>
        <WeekCursor axis={card.axis} week={card.at} />
        <div class="week-card">
          <h2>
            <a href={addressOf(card.at)}>{card.title}</a>
          </h2>
          <dl>
            {card.lines.map(({ what, words }) => (
              <div key={what}>
                <dt>{what}</dt>
                <dd>{words}</dd>
              </div>
            ))}
          </dl>
        </div>
      </>
    )}
  </div>
);

/** A week is chosen by sliding, by the arrow keys or, without script, by sending the form. */
export const WeekSlider = ({ axis, at }: { axis: YearAxis; at: number }) => (
  <form
    class="week-slider"
    method="get"
    action="/year/weeks"
    hx-get="/year/weeks"
    hx-trigger="input delay:120ms"
    hx-target="#week-card"
    hx-swap="outerHTML"
    hx-sync="this:replace"
  >
    <label class="heard-only" for="week-at">
      Weeks from now
    </label>
    <input
      id="week-at"
      type="range"
      name="at"
      min="0"
      max={axis.weekCount - 1}
      value={at}
      aria-describedby="week-card"
    />
    <noscript>
      <Button weight="quiet">Show the week</Button>
    </noscript>
  </form>
);

/** The way to the weeks before and after, where the card stands by itself. */
export const WeeksBeside = ({ axis, at }: Pick<WeekCardProps, 'axis' | 'at'>) => (
  <p class="page-actions">
    {at <= 0 ? null : (
      <a class="button button-plain" href={addressOf(at - 1)}>
        The week before
      </a>
    )}
    {at >= axis.weekCount - 1 ? null : (
      <a class="button button-plain" href={addressOf(at + 1)}>
        The week after
      </a>
    )}
  </p>
);
