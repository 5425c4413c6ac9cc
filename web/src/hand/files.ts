/// The core's sheets, of which each has pages to look at, a PDF, and some a table.
export interface Sheet { stem: string; pages: string[]; pdf: string; csv?: string }

/// `names`: as core.files() tells them, in its order: a sheet's pages, its PDF, its table.
export function sheets(names: string[]): Sheet[] {
  const found: Sheet[] = [];
  let pages: string[] = [];
  for (const name of names) {
    const stem = name.replace(/\.\w+$/, '');
    if (name.endsWith('.svg')) pages.push(name);
    else if (name.endsWith('.pdf') && pages.length) {
      found.push({ stem, pages, pdf: name });
      pages = [];
    } else if (name.endsWith('.csv')) {
      const sheet = found.find((s) => s.stem === stem);
      if (sheet) sheet.csv = name;
    }
  }
  return found;
}

export const stemOf = (piece: string) => `step-${piece.toLowerCase()}`;

const types: Record<string, string> = { pdf: 'application/pdf', csv: 'text/csv', svg: 'image/svg+xml', dxf: 'image/vnd.dxf', json: 'application/json' };
export const typeOf = (name: string) => types[name.slice(name.lastIndexOf('.') + 1)] ?? 'application/octet-stream';
