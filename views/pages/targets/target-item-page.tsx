import { WeeklyUse, type WeeklyUseProps } from '../../charts/weekly-use.tsx';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Part } from '../../parts/part.tsx';
import { ItemHead, type ItemHeadProps } from '../items/item-head.tsx';
import { Appetite, type AppetiteProps } from './appetite.tsx';
import { DeclaredUse, type DeclaredUseProps } from './declared-use.tsx';
import { JarSizePart, type JarSizeProps } from './jar-size.tsx';
import { Occasions, type OccasionsProps } from './occasions.tsx';
import { SeasonForm, type SeasonFormProps } from './season-form.tsx';
import { YearNeed, type YearNeedProps } from './year-need.tsx';

export interface TargetItemPageProps {
  readonly frame: Frame;
  readonly head: ItemHeadProps;
  /** The answer first: "A year needs 68 pints. The shelf has 12." */
  readonly line: string;
  /** "No more can come: no source of carrots." and the step that mends it. */
  readonly standstill: {
    readonly words: string;
    readonly step: { readonly words: string; readonly href: string };
  } | null;
  readonly appetite: AppetiteProps;
  readonly picture: WeeklyUseProps;
  readonly declared: DeclaredUseProps;
  readonly need: YearNeedProps;
  /** Null for what is not canned. */
  readonly jarSize: JarSizeProps | null;
  readonly season: SeasonFormProps;
  readonly occasions: OccasionsProps;
}

export const TargetItemPage = (props: TargetItemPageProps) => (
  <Page
    frame={props.frame}
    title={`Target: ${props.head.item.name}`}
    section="targets"
    about={`How much ${props.head.item.name} you eat, and what a year needs of it.`}
    moreCss={props.frame.assets.yearCss}
  >
    <ItemHead head={props.head} current="much" />
    <p class="page-line" id="target-line">
      {props.line}
    </p>
    {props.standstill === null ? null : (
      <p>
        <strong>{props.standstill.words}</strong>{' '}
        <a href={props.standstill.step.href}>{props.standstill.step.words}</a>
      </p>
    )}
    <YearNeed {...props.need} />
    <Part id="appetite" title="How much you eat" class={`family-${props.head.item.family}`}>
      <Appetite {...props.appetite} />
      <WeeklyUse {...props.picture} />
    </Part>
    <DeclaredUse {...props.declared} />
    {props.jarSize === null ? null : <JarSizePart {...props.jarSize} />}
    <SeasonForm {...props.season} />
    <Occasions {...props.occasions} />
  </Page>
);
