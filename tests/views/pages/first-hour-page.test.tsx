import { renderToString } from 'preact-render-to-string';
import { describe, expect, test } from 'vitest';
import { FirstHourPage, type FirstHourPageProps } from '../../../views/pages/start/first-hour-page.tsx';
import { formOf, wordsOf } from '../../builders/visitor.ts';
import { aFrame, someKeys } from '../page-props.ts';

const form: FirstHourPageProps['form'] = {
  formId: 'start',
  keys: someKeys,
  values: {
    name: 'Larch End',
    people: '3',
    units: 'us',
    weekStartsOn: 'sunday',
    locale: 'en-US',
    currency: 'USD',
    timeZone: '',
    town: '',
    station: '',
    lastFrost: '',
    firstFrost: '',
    region: 'NJ',
    altitude: '',
    altitudeUnit: 'ft',
    boilingWater: true,
    potSize: 'pot',
    pressure: false,
    pressureSize: 'pressure',
    gauge: '',
    gaugeCheckedOn: '',
    gaugeOffAt5: '',
    gaugeOffAt10: '',
    gaugeOffAt15: '',
    halfPints: '24',
    pints: '48',
    quarts: '0',
    lids: '72',
    sourceKind: 'garden',
    sessionsPerWeek: '1',
    hoursPerSession: '5',
    fundNow: '150',
    fundWeekly: '20',
    owner: '',
    passphrase: '',
    eats: '',
    ...{ 'eats-plum-jelly': 'month:1' },
  },
  problems: {},
};

const props = (over: Partial<FirstHourPageProps> = {}): FirstHourPageProps => ({
  frame: { ...aFrame, householdName: null },
  form,
  altitudeSeen: { echo: null, mark: '' },
  stations: [],
  timeZones: [{ value: '', words: 'That of your region' }],
  currencies: [{ value: 'USD', words: 'USD, US Dollar' }],
  sizes: {
    pot: [{ value: 'pot', words: 'ordinary canning pot: 7 quarts or 9 pints' }],
    pressure: [{ value: 'pressure', words: '16-quart: 7 quarts or 9 pints' }],
  },
  regions: [
    { value: '', words: 'None of these' },
    { value: 'NJ', words: 'New Jersey' },
  ],
  preserves: [
    {
      field: 'eats-plum-jelly',
      name: 'Plum jelly',
      family: 'stone-fruit',
      note: 'half-pints',
    },
  ],
  often: [
    { value: '', words: 'not for us' },
    { value: 'month:1', words: '1 a month' },
  ],
  asksOwner: true,
  others: [],
  demo: { isThere: false, name: null, keys: someKeys },
  ...over,
});

const page = (over: Partial<FirstHourPageProps> = {}) => renderToString(<FirstHourPage {...props(over)} />);

describe('the page of the first hour', () => {
  test('one form holds everything, with what is filled in chosen already; altitude and gauge stand open', () => {
    expect(formOf(page(), '/start').values).toMatchObject({
      region: 'NJ',
      altitude: '',
      gauge: '',
      boilingWater: 'yes',
      'eats-plum-jelly': 'month:1',
      sourceKind: 'garden',
      key: someKeys.key,
    });
  });

  test('says how altitude and gauge are found', () => {
    const words = wordsOf(page());

    expect(words).toContain('the county extension office knows it');
    expect(words).toContain('A dial has a needle');
  });

  test('offers to look around first, or to open a household that is there', () => {
    expect(wordsOf(page())).toContain('Look around in the demo first');

    const others = page({
      others: [{ id: 'quince-lane', name: 'Quince Lane', keys: someKeys }],
      demo: { isThere: true, name: 'Thistle Bank', keys: someKeys },
    });
    expect(formOf(others, '/start/households/quince-lane').values.key).toBe(someKeys.key);
    expect(wordsOf(others)).toContain('Open Quince Lane');
    expect(wordsOf(others)).toContain('Look around in Thistle Bank');
  });

  test('a problem stands beside its field and is read with it', () => {
    const html = page({
      form: { ...form, problems: { altitude: 'Altitude must be a number.', eats: 'Choose one.' } },
    });

    expect(html).toContain('aria-describedby="start-altitude-hint start-altitude-problem"');
    expect(html).toContain('id="start-altitude-problem"');
    expect(wordsOf(html)).toContain('Choose one.');
  });

  test('the fold with the gauge stands open for who has a pressure canner', () => {
    expect(page()).not.toContain('class="gauge-fold" open');
    expect(page({ form: { ...form, values: { ...form.values, pressure: true } } })).toMatch(
      /<details class="gauge-fold" open/,
    );
  });
});
