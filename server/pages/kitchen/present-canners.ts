import { counted } from '../../../shared/counting.ts';
import { addDays, daysBetween } from '../../../shared/week.ts';
import type { Canner } from '../../../src/household/kitchen.ts';
import { dialCheckDays, gaugeOffTroubles } from '../../../src/preserving/canner.ts';
import type { CannerFormProps, CannersProps } from '../../../views/pages/kitchen/canner-forms.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatDate } from '../../../views/words/format.ts';
import { cannerSizeChoices } from '../../words/canning/canner-sizes.ts';
import { plain } from '../../words/plain-number.ts';
import type { StateOfForm } from '../shared/answer-form.ts';
import { upkeepSummary } from '../shared/upkeep-words.ts';
import type { KitchenPicture } from './kitchen-picture.ts';

const methodWords: Readonly<Record<Canner['method'], string>> = {
  'boiling-water': 'boiling water',
  steam: 'atmospheric steam',
  pressure: 'pressure',
};

export function presentCanners(
  picture: KitchenPicture,
  state: StateOfForm,
  newKeys: () => FormKeys,
): CannersProps {
  const blank = {
    name: '',
    method: '',
    gauge: '',
    gaugeCheckedOn: '',
    gaugeOffAt5: '',
    gaugeOffAt10: '',
    gaugeOffAt15: '',
    volumeQuarts: '',
    size: '',
    quartJars: '',
    pintJars: '',
    halfPintJars: '',
  };
  return {
    upkeep: upkeepSummary(picture.upkeep, picture.today, picture.reading),
    canners: picture.canners.map((canner) => ({
      ...presentCanner(canner, picture, state),
      retireKeys: newKeys(),
    })),
    adding: {
      ...state('canner-new', blank),
      cannerId: null,
      sizes: cannerSizeChoices(picture.cannerFacts),
      title: 'Add a canner',
      state: null,
      retireKeys: null,
    },
  };
}

function presentCanner(
  canner: Canner,
  picture: KitchenPicture,
  state: StateOfForm,
): Omit<CannerFormProps, 'retireKeys'> {
  return {
    ...state(`canner-${canner.id}`, {
      name: canner.name,
      method: canner.method,
      gauge: canner.gauge ?? '',
      gaugeCheckedOn: canner.gaugeCheckedOn ?? '',
      gaugeOffAt5: said(canner.gaugeOff?.at5),
      gaugeOffAt10: said(canner.gaugeOff?.at10),
      gaugeOffAt15: said(canner.gaugeOff?.at15),
      volumeQuarts: said(canner.volumeQuarts),
      size: '',
      quartJars: String(canner.holds.quarts),
      pintJars: String(canner.holds.pints),
      halfPintJars: String(canner.holds.halfPints),
    }),
    cannerId: canner.id,
    sizes: canner.method === 'steam' ? [] : cannerSizeChoices(picture.cannerFacts, canner.method),
    title: canner.name,
    state: `${methodWords[canner.method]}${gaugeWords(canner, picture)}`,
  };
}

const said = (value: number | null | undefined): string =>
  value === null || value === undefined ? '' : plain(value);

/** A rule that is not about the day of the check. */
const gaugeRule: Readonly<Record<string, string>> = {
  'gauge-figures-missing':
    '; say how many psi it was off at 5, 10 and 15 at its last check, until then it cannot be used',
  'dial-gauge-off': ', dial gauge more than 2 psi off: replace it before the canner is used',
  'dial-gauge-reads-high': ', dial gauge reads high: have it set or replaced before the canner is used',
};

function gaugeWords(canner: Canner, { today, reading, cannerFacts }: KitchenPicture): string {
  const { method, gauge, gaugeCheckedOn } = canner;
  if (method !== 'pressure') return '';
  if (gauge === null) return '; say which gauge it has, until then it cannot be used';
  if (gauge === 'weighted') return ', weighted gauge';
  if (gaugeCheckedOn === null) return ', dial gauge never checked: it cannot be used until it is';
  const age = daysBetween(gaugeCheckedOn, today);
  const [wrong] = age > dialCheckDays ? [] : gaugeOffTroubles(canner.gaugeOff, cannerFacts);
  if (wrong) return gaugeRule[wrong.code] ?? '';
  return age > dialCheckDays
    ? `, dial gauge last checked ${counted(age, 'day')} ago: have it checked before it is used`
    : `, dial gauge good until ${formatDate(addDays(gaugeCheckedOn, dialCheckDays), reading)}`;
}
