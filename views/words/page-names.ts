/** What each page is called: in its own title, in the navigation and wherever a sentence sends somebody to it. */
export const pageNames = {
  week: 'This week',
  year: 'The year',
  shelf: 'Shelf',
  harvest: 'Harvest',
  buying: 'Shopping',
  canning: 'Canning day',
  kitchen: 'Settings',
  search: 'Search',
  targets: 'How much',
  items: 'Items',
  stages: 'Before the canner',
  safety: 'Safety',
  notices: 'Notices',
  'look-back': 'Look back',
  print: 'Print and share',
  labels: 'Labels',
  calendar: 'Calendar',
  files: 'Import and export',
  people: 'Sharing',
  jobs: 'Nightly jobs',
  words: 'Glossary',
} as const;

export type PageName = keyof typeof pageNames;
