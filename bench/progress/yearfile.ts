/** Writes an invented year as a backup, to be brought into the app: `npm run bench:year -- FILE.zip [DAY] [pit|dance]`, the day after the year; today, and the pit, unless said. */
import { writeFileSync } from 'node:fs';
import { backupBytes } from '../../adapters/src/backup/index.ts';
import { DANCE_YEAR } from './danceyear.ts';
import { PIT_YEAR } from './pityear.ts';
import { liveYear } from './year.ts';

const [file, today = new Date().toISOString().slice(0, 10), whose = 'pit'] = process.argv.slice(3);
if (!file) throw new Error('Say which file to write: npm run bench:year -- year.zip');
const { records, days } = liveYear(whose === 'dance' ? DANCE_YEAR : PIT_YEAR, today);
writeFileSync(file, await backupBytes(records, []));
console.log(`${records.length} entries on ${days.length} days are in ${file}`);
