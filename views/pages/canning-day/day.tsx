import { hasProblems } from '../../parts/fields.tsx';
import type { FormKeys } from '../../parts/form.tsx';
import { FoldedPart, Part } from '../../parts/part.tsx';
import { Stages, type StagesProps } from '../../parts/stages.tsx';
import { type BeforeTheDayProps, Errands, SetOut } from './before-the-day.tsx';
import { BeginDay, DaySetting, type DaySettingProps, Withdraw } from './day-setting.tsx';
import { DayWork, type DayWorkProps } from './day-work.tsx';
import { LoadCard, type LoadProps } from './load-card.tsx';
import { PrintedSheets, type PrintedSheetsProps } from './printed-sheets.tsx';
import {
  type CautionLine,
  Cautions,
  type HelpProps,
  HelpToFind,
  ProcessCard,
  type ProcessCardProps,
  type SourceLine,
  Sources,
} from './process-card.tsx';
import { FoldedResults, isNothingOut, type ResultProps, Results } from './results.tsx';
import { Sheet, type SheetProps } from './sheet.tsx';
import { Sounds } from './sounds.tsx';
import { Timeline, type TimelineProps } from './timeline.tsx';

export interface CanningDayProps {
  readonly title: string;
  readonly summary: string;
  readonly isBegun: boolean;
  readonly cards: readonly ProcessCardProps[];
  readonly help: readonly HelpProps[];
  readonly loads: readonly LoadProps[];
  readonly stages: StagesProps;
  readonly before: BeforeTheDayProps;
  readonly setting: DaySettingProps;
  /** Null until the day is begun. */
  readonly work: DayWorkProps | null;
  /** Set while a day that was begun can still be taken back. */
  readonly withdraw: { readonly action: string; readonly keys: FormKeys } | null;
  readonly timeline: TimelineProps | null;
  /** Why there is no timeline, or what is done beside it. */
  readonly timelineWords: readonly string[];
  readonly results: readonly ResultProps[];
  readonly sheet: SheetProps | null;
  readonly sheets: PrintedSheetsProps;
  readonly cautions: readonly CautionLine[];
  readonly sources: readonly SourceLine[];
}

/** One canning day: ahead, what it makes and one press to begin; begun, one thing at a time. Everything else is a tap away. */
export const Day = ({ day }: { day: CanningDayProps }) => (
  <>
    <p class="page-line">{day.summary}</p>
    {day.sheet === null ? null : <Sheet sheet={day.sheet} />}
    {day.timelineWords.map((words) => (
      <p key={words} class="part-words">
        {words}
      </p>
    ))}
    {day.isBegun ? <Begun day={day} /> : <Ahead day={day} />}
    <div class="folded-parts">
      <SetOut groups={day.before.setOut} byProducts={day.before.byProducts} />
      <FoldedPart
        title="The day"
        id="timeline"
        line={day.timeline?.line ?? 'Start, people, burners'}
        open={hasProblems(day.setting.form)}
      >
        {day.timeline === null ? null : <Timeline timeline={day.timeline} />}
        <DaySetting setting={day.setting} />
        {day.withdraw === null ? null : <Withdraw {...day.withdraw} />}
      </FoldedPart>
      {day.work === null ? null : <DayWork work={day.work} />}
      <PrintedSheets sheets={day.sheets} isBegun={day.isBegun} />
      <FoldedPart title="Safety notes" id="cautions" line={day.cautions[0]?.text}>
        <Cautions cautions={day.cautions} />
        <Sources sources={day.sources} />
      </FoldedPart>
    </div>
  </>
);

const Ahead = ({ day }: { day: CanningDayProps }) => (
  <>
    <BeginDay setting={day.setting} />
    <Processed day={day} cards={day.cards} />
    <Stages stages={day.stages} saysWhy={day.cards.every(({ schedule }) => schedule !== null)} />
    <div class="folded-parts">
      <Errands buyBy={day.before.buyBy} errands={day.before.errands} />
    </div>
  </>
);

/** What has no time yet stands before all loads; what has one says it on its loads, and where it comes from below. */
const Begun = ({ day }: { day: CanningDayProps }) => {
  const open = day.cards.filter(({ schedule }) => schedule === null);
  const timed = day.cards.filter(({ schedule }) => schedule !== null);
  const nothingOut = isNothingOut(day.results);
  return (
    <>
      {open.length === 0 ? null : <Processed day={day} cards={open} />}
      <Stages stages={day.stages} saysWhy={open.length === 0} />
      {day.loads.length === 0 ? null : <Loads loads={day.loads} />}
      {nothingOut ? null : <Results results={day.results} />}
      <div class="folded-parts">
        {nothingOut ? <FoldedResults results={day.results} /> : null}
        {timed.length === 0 ? null : (
          <FoldedPart
            title={open.length === 0 ? 'Processed here' : 'Processed here too'}
            id={open.length === 0 ? 'processed' : 'processed-too'}
            line="One published row each, for this food, jar, canner and altitude."
          >
            <Cards cards={timed} />
          </FoldedPart>
        )}
        <Errands buyBy={day.before.buyBy} errands={day.before.errands} />
        <FoldedPart title="Ring and voice" id="sounds" line="What this device does when a time is up">
          <Sounds />
        </FoldedPart>
      </div>
    </>
  );
};

const Processed = ({ day, cards }: { day: CanningDayProps; cards: CanningDayProps['cards'] }) => (
  <Part title="Processed here" id="processed">
    <Cards cards={cards} />
    <HelpToFind help={day.help} />
  </Part>
);

const Cards = ({ cards }: { cards: CanningDayProps['cards'] }) => (
  <div class="process-cards">
    {cards.map((card) => (
      <ProcessCard key={card.key} card={card} />
    ))}
  </div>
);

const Loads = ({ loads }: { loads: readonly LoadProps[] }) => (
  <Part
    title="Loads"
    id="loads"
    line="The clock starts at the full boil, or at pressure after venting; never before."
  >
    <div class="loads">
      {loads.map((load) => (
        <LoadCard key={load.key} load={load} />
      ))}
    </div>
  </Part>
);
