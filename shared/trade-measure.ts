/** What produce is sold in, besides its weight. */
export const tradeMeasures = ['bushel', 'half-bushel', 'peck', 'lug', 'crate'] as const;
export type TradeMeasure = (typeof tradeMeasures)[number];

/** What an amount of produce may be typed in. */
export const produceUnits = ['lb', 'kg', ...tradeMeasures] as const;
export type ProduceUnit = (typeof produceUnits)[number];
