import type { WhatIfProps } from '../../../views/pages/targets/declared-use.tsx';
import type { TargetItemPageProps } from '../../../views/pages/targets/target-item-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { walkSentence } from '../../words/year/year-walk.ts';
import { whatIsMissing } from '../../year/what-is-missing.ts';
import { type SentBack, statesFrom } from '../shared/answer-form.ts';
import { presentAppetite, presentPicture } from './present-appetite.ts';
import { presentDeclared } from './present-declared.ts';
import { presentJarSize } from './present-jars.ts';
import { presentNeed } from './present-need.ts';
import { presentOccasions } from './present-occasions.ts';
import { presentSeason } from './present-season.ts';
import { type TargetPicture, useOf } from './target-picture.ts';

/** The whole page of one item's target. */
export function presentTargetItem(
  picture: TargetPicture,
  keys: () => FormKeys,
  sentBack: SentBack | null = null,
  whatIf: WhatIfProps | null = null,
): Omit<TargetItemPageProps, 'frame' | 'head'> {
  const { item, loaded, reading, walk, hasPlan } = picture;
  const state = statesFrom(keys, sentBack);
  const isUnsaid = useOf(picture)?.declared === null;
  return {
    line: walkSentence(item, walk, reading, {
      hasPlan,
      isUnsaid,
      isBought: loaded.supplyByItem.get(item.id)?.by === 'bought',
    }),
    standstill: standstillOf(picture),
    appetite: presentAppetite(picture, keys),
    picture: presentPicture(picture),
    declared: presentDeclared(picture, state, whatIf),
    need: presentNeed(picture, keys, state),
    jarSize: presentJarSize(picture, state),
    season: presentSeason(picture, state),
    occasions: presentOccasions(picture, keys, state),
  };
}

/** Why nothing more of it can come, with the step that mends it; null where something can. */
const standstillOf = ({ item, loaded }: TargetPicture): TargetItemPageProps['standstill'] => {
  const supply = loaded.supplyByItem.get(item.id);
  const missing =
    supply === undefined
      ? null
      : whatIsMissing(loaded, { item, supply, forecast: loaded.useByItem.get(item.id)?.forecast ?? null });
  return missing === null ? null : { words: `No more can come: ${missing.words}.`, step: missing.step };
};
