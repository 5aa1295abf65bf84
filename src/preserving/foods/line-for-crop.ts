/** Lines of a table by the keys of the crops they stand for, the first that fits. Which line stands for which crop is our own pairing. */
export type LinesOfCrops<Line> = readonly (readonly [crops: RegExp, line: Line])[];

/** The line that stands for a crop; undefined where none does. Keys are read with hyphens, as a household's crops have them. */
export const lineForCrop = <Line>(lines: LinesOfCrops<Line>, crop: string): Line | undefined =>
  lines.find(([crops]) => crops.test(crop.replaceAll('_', '-')))?.[1];
