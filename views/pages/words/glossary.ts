export interface GlossaryWord {
  readonly word: string;
  readonly means: string;
  readonly href?: string;
}

export interface GlossaryGroup {
  readonly title: string;
  readonly words: readonly GlossaryWord[];
}

/** The words a person meets on the pages, grouped by where they meet them. */
export const glossary: readonly GlossaryGroup[] = [
  {
    title: 'On the shelf',
    words: [
      {
        word: 'Item',
        means: 'Anything that is kept: a preserve you put up, or a staple you only buy.',
        href: '/items',
      },
      {
        word: 'Batch',
        means:
          'The jars of one item and size that were put up, bought or received on one day. Its code is the day and a letter, like 260812-A.',
      },
      {
        word: 'Took one',
        means:
          'A jar left the shelf to be eaten. It is written down at that moment, so stock and what you eat both follow.',
        href: '/shelf',
      },
      {
        word: 'Count',
        means:
          'Looking at the shelf and writing down what is there. What is missing counts as eaten, unless you say otherwise.',
        href: '/shelf/count',
      },
      {
        word: 'Best quality until',
        means:
          'The day until which a sealed jar tastes as it should. It is about taste, never about safety: a jar past it is eaten first.',
      },
      {
        word: 'Keeps cold',
        means:
          'How many days an opened jar lasts in the refrigerator. For low-acid food that is a limit of safety.',
      },
      {
        word: 'Set aside',
        means: 'Not counted as food for now, because something about the batch is doubted.',
      },
      { word: 'Ready from', means: 'The first day a batch may be eaten; pickles need weeks to cure.' },
    ],
  },
  {
    title: 'How much',
    words: [
      {
        word: 'Target',
        means: 'How much of an item a year needs: what you eat, gifts and occasions, and a reserve.',
        href: '/targets',
      },
      {
        word: 'Reserve',
        means: 'What should still be there when more comes, in case of a hungrier year or a failed crop.',
      },
      {
        word: 'Lasts to, runs out',
        means:
          'Going by what you eat, the week in which it becomes more likely than not that none is left. “1 year in 10” beside it names the risk that it is sooner.',
        href: '/year',
      },
      {
        word: '9 years in 10',
        means: 'How sure an item is to last until it can be made again: in nine of ten years like this one.',
      },
      {
        word: 'Group',
        means: 'Items that can replace each other: if there is no peach jam, plum will do.',
        href: '/targets',
      },
      {
        word: 'Guess',
        means: 'A figure we filled in so that planning can begin. It is yours to put right.',
        href: '/items',
      },
    ],
  },
  {
    title: 'Planning and harvest',
    words: [
      {
        word: 'Source',
        means: 'Where a crop comes from: your garden, picking it yourself, or a market.',
        href: '/harvest',
      },
      {
        word: 'Harvest window',
        means: 'The days when a source has its crop, and when it has the most.',
      },
      {
        word: 'Waiting to be used',
        means: 'Something left over or frozen that another recipe uses, with a day by which it must be.',
      },
      {
        word: 'Season fund',
        means: 'Money set aside week by week for the busy weeks. The plan never spends more than is there.',
        href: '/kitchen',
      },
      {
        word: 'Doesn’t fit',
        means:
          'What the plan leaves out where it cannot do everything you want, and how much of it. It never leaves out safety.',
      },
      {
        word: 'Pinned, ruled out',
        means: 'A batch you decided stays in a week, or stays out of it, whatever the plan would rather do.',
        href: '/kitchen',
      },
    ],
  },
  {
    title: 'At the canner',
    words: [
      {
        word: 'Load',
        means: 'The jars in one canner at one time, all processed for the same time at the same pressure.',
      },
      {
        word: 'Tested process',
        means:
          'A published row: this food, packed so, in this jar, this long at this pressure, at this altitude. Without one, nothing is canned.',
        href: '/process-times',
      },
      {
        word: 'Low-acid food',
        means: 'Vegetables, meat, beans and stock. Only a pressure canner makes them safe in a jar.',
      },
      {
        word: 'Boiling-water canner',
        means:
          'A deep pot in which jars stand under boiling water; for fruit, jam, pickles and acidified tomatoes.',
      },
      {
        word: 'Dial and weighted gauge',
        means:
          'The two ways a pressure canner shows its pressure: a needle on a scale, or a weight that rocks. A dial is checked every year.',
        href: '/kitchen',
      },
      {
        word: 'Altitude',
        means:
          'How high your kitchen is above sea level. Water boils cooler higher up, so times and pressures change.',
        href: '/kitchen',
      },
      { word: 'Headspace', means: 'The room left between the food and the rim of the jar.' },
      {
        word: 'Hot pack, raw pack',
        means: 'Food filled into jars boiling, or fresh with hot liquid poured over it.',
      },
      {
        word: 'Lid, band',
        means: 'The flat lid seals and is used once; the band only holds it while it does.',
      },
    ],
  },
];
