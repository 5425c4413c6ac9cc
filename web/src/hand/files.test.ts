import { expect, test } from 'vitest';
import { sheets, typeOf } from './files';

test('pages, PDF and table of each sheet are told apart, and all sheets in one are no sheet', () => {
  const names = ['roll-twist.svg', 'roll-twist-2.svg', 'roll-twist.pdf', 'roll-twist.csv', 'step-b.svg', 'step-b.pdf', 'step-b-02.svg', 'step-b-02-2.svg', 'step-b-02.pdf', 'all-sheets.pdf'];
  expect(sheets(names)).toEqual([
    { stem: 'roll-twist', pages: ['roll-twist.svg', 'roll-twist-2.svg'], pdf: 'roll-twist.pdf', csv: 'roll-twist.csv' },
    { stem: 'step-b', pages: ['step-b.svg'], pdf: 'step-b.pdf' },
    { stem: 'step-b-02', pages: ['step-b-02.svg', 'step-b-02-2.svg'], pdf: 'step-b-02.pdf' },
  ]);
});

test('each kind of file has its type', () => {
  expect(['a.pdf', 'a.csv', 'a.svg', 'a.json'].map(typeOf)).toEqual(['application/pdf', 'text/csv', 'image/svg+xml', 'application/json']);
});
