import type { FormKeys } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { Stages, type StagesProps } from '../../parts/stages.tsx';
import { BeforeTheDay, type BeforeTheDayProps } from './before-the-day.tsx';
import { DaySetting, type DaySettingProps, Withdraw } from './day-setting.tsx';
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
import { type ResultProps, Results } from './results.tsx';
import { Sheet, type SheetProps } from './sheet.tsx';
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

/** One canning day from top to bottom: loads at hand first, then the schedules, the hours and what is fetched. */
export const Day = ({ day }: { day: CanningDayProps }) => (
  <>
    <p class="page-line">{day.summary}</p>
    {day.sheet === null ? null : <Sheet sheet={day.sheet} />}
    {isOpen(day) ? <Processed day={day} /> : null}
    <Stages stages={day.stages} />
    {day.loads.length === 0 ? null : <Loads loads={day.loads} />}
    {day.isBegun ? <Results results={day.results} /> : null}
    {isOpen(day) ? null : <Processed day={day} />}
    <div class="two-columns">
      <div>
        <Part title="The day" id="timeline" line={day.timeline?.line}>
          {day.timelineWords.map((words) => (
            <p key={words} class="part-words">
              {words}
            </p>
          ))}
          {day.timeline === null ? null : <Timeline timeline={day.timeline} />}
          <DaySetting setting={day.setting} />
          {day.withdraw === null ? null : <Withdraw {...day.withdraw} />}
        </Part>
        {day.work === null ? null : <DayWork work={day.work} />}
      </div>
      <div>
        <BeforeTheDay before={day.before} />
        <PrintedSheets sheets={day.sheets} isBegun={day.isBegun} />
        <Part title="Mind" id="cautions">
          <Cautions cautions={day.cautions} />
          <Sources sources={day.sources} />
        </Part>
      </div>
    </div>
  </>
);

/** While a printed schedule is to be chosen, that comes before all loads: the batch has none until then. */
const isOpen = ({ cards }: CanningDayProps): boolean => cards.some(({ choice }) => choice?.value === '');

const Processed = ({ day }: { day: CanningDayProps }) => (
  <Part
    title="Processed here"
    id="processed"
    line="One published row each, for this food, jar, canner and altitude."
  >
    <div class="process-cards">
      {day.cards.map((card) => (
        <ProcessCard key={card.key} card={card} />
      ))}
    </div>
    <HelpToFind help={day.help} />
  </Part>
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
