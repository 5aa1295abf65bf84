import { type Citation, cite } from '../citation.ts';
import { type Refusal, refusal } from '../refusal.ts';

/** Ways of sealing jars that are not a process. */
export const unsafeMethods = [
  'oven',
  'dishwasher',
  'microwave',
  'open-kettle',
  'inversion',
  'electric-multi-cooker',
  'slow-cooker',
  'sun',
] as const;
export type UnsafeMethod = (typeof unsafeMethods)[number];

const toCanner = 'Use a boiling-water canner for acid food and a pressure canner for low-acid food.';

const unsafeMethodRules: Readonly<Record<UnsafeMethod, readonly [string, Citation]>> = {
  oven: ['Jars must not be processed in an oven', cite('NCHFP-METHODS', 'whole page')],
  dishwasher: ['Jars must not be processed in a dishwasher', cite('NCHFP-METHODS', 'whole page')],
  microwave: ['Jars must not be processed in a microwave oven', cite('NCHFP-METHODS', 'whole page')],
  'open-kettle': [
    'Filling hot jars and letting them seal unprocessed does not prevent spoilage',
    cite('NCHFP-METHODS', 'whole page'),
  ],
  inversion: ['Turning hot jars upside down is no process', cite('UI-UNSAFE', 'whole page')],
  'electric-multi-cooker': [
    'Published times were made for stovetop canners and are not supported in electric multi-cookers',
    cite('NCHFP-MULTI', 'whole page'),
  ],
  'slow-cooker': ['A slow cooker is no canner', cite('UI-UNSAFE', 'whole page')],
  sun: ['Sunlight is no process', cite('UI-UNSAFE', 'whole page')],
};

export const methodRefusal = (method: UnsafeMethod): Refusal => {
  const [rule, source] = unsafeMethodRules[method];
  return refusal(`method-${method}`, 'method', rule, source, toCanner);
};
