import { unitsStanding } from '../../../src/household/lot.ts';
import type { WhatIfProps } from '../../../views/pages/targets/declared-use.tsx';
import type { TargetItemPageProps } from '../../../views/pages/targets/target-item-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { amountOf } from '../../words/shelf-units.ts';
import { presentAppetite, presentPicture } from './present-appetite.ts';
import { presentDeclared } from './present-declared.ts';
import { presentJarSize } from './present-jars.ts';
import { presentNeed } from './present-need.ts';
import { presentOccasions } from './present-occasions.ts';
import { presentSeason } from './present-season.ts';
import { type TargetPicture, type TargetSentBack, useOf } from './target-picture.ts';

/** The whole page of one item's target. */
export function presentTargetItem(
  picture: TargetPicture,
  keys: () => FormKeys,
  sentBack: TargetSentBack | null = null,
  whatIf: WhatIfProps | null = null,
): Omit<TargetItemPageProps, 'frame'> {
  const { item, loaded, reading } = picture;
  const target = loaded.targetByItem.get(item.id) ?? null;
  const onShelf = unitsStanding(
    item,
    loaded.facts.lots.filter((lot) => lot.itemId === item.id),
  );
  const isUnsaid = useOf(picture)?.declared === null;
  const has =
    onShelf === 0 ? 'None stands on the shelf.' : `On the shelf: ${amountOf(item, onShelf, reading)}.`;
  return {
    itemId: item.id,
    item: { name: item.name, family: item.family },
    line:
      target === null
        ? `Nothing is planned for, because nobody said how much is eaten. ${has}`
        : `A year needs ${amountOf(item, target.units, reading)}${isUnsaid ? ', by what was seen alone: nobody said how much is eaten' : ''}. ${has}`,
    appetite: presentAppetite(picture, keys),
    picture: presentPicture(picture),
    declared: presentDeclared(picture, keys(), sentBack, whatIf),
    need: presentNeed(picture, keys, sentBack),
    jarSize: presentJarSize(picture, keys, sentBack),
    season: presentSeason(picture, keys(), keys(), sentBack),
    occasions: presentOccasions(picture, keys, sentBack),
  };
}
