/** Words around the page of the weeks. */
export const weeksLabels = {
  title: 'The weeks of this plan, on one sheet',
  hint: 'What was aimed at, done and heard, and the decision, as a page to print: of this plan, or of the phrase over all its plans.',
  save: 'Save the page (PDF)',
  life: 'Save the whole way of the phrase (PDF)',
  saving: 'The page is being written …',
  saved: 'Saved among your downloads.',
  failed: 'The page could not be written. Try again.',
  parent: 'One line for a parent',
  copy: 'Copy the line',
  copied: 'Copied.',
  byHand: 'It could not be copied by itself. Mark the line and copy it.',
} as const;
