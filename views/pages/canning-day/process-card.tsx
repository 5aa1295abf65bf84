import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { WaySteps, type WayStepsProps } from '../../parts/way-steps.tsx';
import { ScheduleChoice, type ScheduleChoiceProps } from './schedule-choice.tsx';

/** One published row, read large: what a load is processed by. */
export interface ScheduleProps {
  /** `35` */
  readonly minutes: string;
  /** `11 psi`; null outside the pressure canner. */
  readonly pressure: string | null;
  /** `in the boiling-water canner`, `in the pressure canner, weighted gauge` */
  readonly how: string;
  /** `Jar`, `Altitude`, `Headspace` … each with its value. */
  readonly facts: readonly { readonly name: string; readonly value: string }[];
  /** `2 tbsp bottled lemon juice, or ½ tsp citric acid`; null where none goes into the jars. */
  readonly acid: string | null;
  readonly source: string;
}

export interface ProcessRefusal {
  readonly messages: readonly string[];
  readonly action: { readonly words: string; readonly href: string } | null;
}

export interface ProcessCardProps {
  readonly key: string;
  readonly item: ItemLabel;
  /** `2 batches, 12 to 14 quarts, 2 loads in Blue kettle` */
  readonly line: string;
  /** What becomes of a jar that alone would need a load; null where there is none. */
  readonly aside: string | null;
  readonly schedule: ScheduleProps | null;
  /** Why no time can be given; null when one is. */
  readonly refusal: ProcessRefusal | null;
  /** Set where the table prints several schedules; until one is chosen there is neither schedule nor refusal. */
  readonly choice: ScheduleChoiceProps | null;
  /** What is said of a batch that goes into no canner. */
  readonly notCanned: string | null;
  /** How the book keeps it where it goes into no canner and follows the book. */
  readonly way: WayStepsProps | null;
}

export const ProcessCard = ({ card }: { card: ProcessCardProps }) => (
  <article class="process-card" aria-label={card.item.name}>
    <p class="process-what">
      <ItemName item={card.item} />
      <span class="quiet">{card.line}</span>
    </p>
    {card.aside === null ? null : <p>{card.aside}</p>}
    {card.schedule === null ? null : <ScheduleLarge schedule={card.schedule} folded />}
    {card.choice === null ? null : <ScheduleChoice choice={card.choice} of={card.item.name} />}
    {card.refusal === null ? null : <NoTime refusal={card.refusal} />}
    {card.notCanned === null ? null : <p>{card.notCanned}</p>}
    {card.way === null ? null : <HowTheBookKeepsIt way={card.way} />}
  </article>
);

const HowTheBookKeepsIt = ({ way }: { way: WayStepsProps }) => (
  <details class="schedule-fold">
    <summary>Step by step, from the book</summary>
    <WaySteps way={way} />
  </details>
);

export const ScheduleLarge = ({
  schedule,
  folded = false,
}: {
  schedule: ScheduleProps;
  /** Set where what it rests on is one tap away; what goes into the jars never is. */
  folded?: boolean;
}) => (
  <div class="schedule">
    <p class="schedule-time">
      <span class="schedule-minutes">{schedule.minutes}</span> <span class="schedule-unit">minutes</span>
      {schedule.pressure === null ? null : (
        <>
          {' '}
          <span class="schedule-unit">at</span> <span class="schedule-pressure">{schedule.pressure}</span>
        </>
      )}
    </p>
    <p class="schedule-how">{schedule.how}</p>
    {schedule.acid === null ? null : (
      <p class="schedule-acid">
        <strong>Into every jar before it is closed: </strong>
        {schedule.acid}
      </p>
    )}
    {folded ? (
      <details class="schedule-fold">
        <summary>Jar, altitude, headspace, source</summary>
        <ScheduleFacts schedule={schedule} />
      </details>
    ) : (
      <ScheduleFacts schedule={schedule} />
    )}
  </div>
);

const ScheduleFacts = ({ schedule }: { schedule: ScheduleProps }) => (
  <>
    <dl class="schedule-facts">
      {schedule.facts.map(({ name, value }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
    <p class="schedule-source">{schedule.source}</p>
  </>
);

const NoTime = ({ refusal }: { refusal: ProcessRefusal }) => (
  <div class="no-time" role="note">
    <p>
      <strong>No time can be given here.</strong>
    </p>
    {refusal.messages.map((message) => (
      <p key={message}>{message}</p>
    ))}
    {refusal.action === null ? null : (
      <p>
        <a href={refusal.action.href}>{refusal.action.words}</a>
      </p>
    )}
  </div>
);

/** What has to be known first, and how to find it out. */
export interface HelpProps {
  readonly title: string;
  readonly steps: readonly string[];
}

export const HelpToFind = ({ help }: { help: readonly HelpProps[] }) => (
  <>
    {help.map(({ title, steps }) => (
      <div key={title} class="help-to-find">
        <h3>{title}</h3>
        <ul class="bullets">
          {steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ul>
      </div>
    ))}
  </>
);

export interface CautionLine {
  readonly key: string;
  readonly text: string;
  readonly source: string;
}

export const Cautions = ({ cautions }: { cautions: readonly CautionLine[] }) => (
  <ul class="cautions">
    {cautions.map(({ key, text, source }) => (
      <li key={key}>
        {text} <span class="caution-source">{source}</span>
      </li>
    ))}
  </ul>
);

/** The cautions beside times that are only looked ahead to. */
export const FoldedCautions = ({ cautions }: { cautions: readonly CautionLine[] }) => (
  <details class="fold">
    <summary>Before you can any of this</summary>
    <Cautions cautions={cautions} />
  </details>
);

/** What the short names of sources stand for. */
export interface SourceLine {
  readonly key: string;
  readonly words: string;
}

export const Sources = ({ sources }: { sources: readonly SourceLine[] }) =>
  sources.length === 0 ? null : (
    <details class="sources">
      <summary>Which guides these are</summary>
      <ul class="plain-list">
        {sources.map(({ key, words }) => (
          <li key={key}>
            <strong>{key}</strong> {words}
          </li>
        ))}
      </ul>
    </details>
  );
