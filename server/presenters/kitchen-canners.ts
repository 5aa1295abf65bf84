import { addDays, type CalendarDate, daysBetween } from '../../shared/week.ts';
import type { CannerFormProps, CannersProps, CannerValues } from '../../views/pages/kitchen/canner-forms.tsx';
import type { FormKeys } from '../../views/parts/form.tsx';
import { formatDate } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import type { Canner } from '../queries/kitchen.ts';
import type { KitchenPicture, State } from './kitchen-picture.ts';

const methodWords: Readonly<Record<Canner['method'], string>> = {
  'boiling-water': 'boiling water',
  steam: 'atmospheric steam',
  pressure: 'pressure',
};

export function presentCanners(picture: KitchenPicture, state: State, newKeys: () => FormKeys): CannersProps {
  const blank: CannerValues = {
    name: '',
    method: '',
    gauge: '',
    gaugeCheckedOn: '',
    quartJars: '',
    pintJars: '',
    halfPintJars: '',
  };
  return {
    canners: picture.canners.map((canner) => ({
      ...presentCanner(canner, picture, state),
      retireKeys: newKeys(),
    })),
    adding: {
      ...state('canner-new', blank),
      cannerId: null,
      title: 'Add a canner',
      state: null,
      retireKeys: null,
    },
  };
}

function presentCanner(
  canner: Canner,
  { today, reading }: KitchenPicture,
  state: State,
): Omit<CannerFormProps, 'retireKeys'> {
  return {
    ...state(`canner-${canner.id}`, {
      name: canner.name,
      method: canner.method,
      gauge: canner.gauge ?? '',
      gaugeCheckedOn: canner.gaugeCheckedOn ?? '',
      quartJars: String(canner.holds.quarts),
      pintJars: String(canner.holds.pints),
      halfPintJars: String(canner.holds.halfPints),
    }),
    cannerId: canner.id,
    title: canner.name,
    state: `${methodWords[canner.method]}${gaugeWords(canner, today, reading)}`,
  };
}

const dialCheckDays = 365;

function gaugeWords(
  { method, gauge, gaugeCheckedOn }: Canner,
  today: CalendarDate,
  reading: Reading,
): string {
  if (method !== 'pressure') return '';
  if (gauge === null) return '; say which gauge it has, until then it cannot be used';
  if (gauge === 'weighted') return ', weighted gauge';
  if (gaugeCheckedOn === null) return ', dial gauge never checked: it cannot be used until it is';
  const age = daysBetween(gaugeCheckedOn, today);
  return age > dialCheckDays
    ? `, dial gauge last checked ${age} days ago: have it checked before it is used`
    : `, dial gauge good until ${formatDate(addDays(gaugeCheckedOn, dialCheckDays), reading)}`;
}
