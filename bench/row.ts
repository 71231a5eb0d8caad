// A row of the table of budgets: printed where the bench runs, and handed to `npm run bench`, which
// sets them all in one table.

export interface Row {
  work: string;
  ours: string;
  baseline: string;
  ratio: string;
  aim: string;
}

type Cells = [work: string, ours: string, baseline: string, ratio: string, aim?: string];

export function row(...[work, ours, baseline, ratio, aim = "–"]: Cells): void {
  console.log([work, ours, baseline, ratio].join(" | "));
  process.send?.({ work, ours, baseline, ratio, aim } satisfies Row);
}
