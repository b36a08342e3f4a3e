/** Labels of the players of a device. */
import { whoseLabels } from './labelswhose.ts';

const diaryOf = whoseLabels.diary;

export const playersLabels = {
  title: 'Players on this device',
  what: 'Each player has a diary of their own in this browser, with their own takes, plan and settings. They do not mix.',
  care: 'A pseudonym will do; nothing else is asked. The diary of somebody under age belongs to them and their guardian. Nothing leaves this device unless somebody sends it.',
  here: 'open in this page',
  open: 'Open',
  openName: (name: string) => `Open ${diaryOf(name)}`,
  add: 'Somebody new',
  firstName: 'Whose is the diary that is here?',
  newName: 'Name or pseudonym of the new player',
  addNow: 'Begin a diary for them',
  added: (name: string) => `${name} has a diary here now. Open it when they play.`,
  trouble: {
    missing: 'Type a name or a pseudonym first.',
    taken: 'Somebody here is called that already. Add a letter to tell the two apart.',
  },
  another: 'Another name',
  rename: 'Rename',
  renamed: 'Renamed.',
  notKept: 'The browser did not keep that. Is the device full?',
  off: (name: string) => `Take ${name} off this device`,
  offTitle: (name: string) => `Take ${diaryOf(name)} off this device?`,
  offWhat: (name: string, days: number) =>
    `Save it to one file first: with the file it can be brought back anywhere. For ${days} days it can be brought back here too; then it goes from this browser for good, with the sound of ${name}’s takes.`,
  save: (name: string) => `Save ${diaryOf(name)} to one file`,
  offNow: 'Take it off',
  offUnsaved: 'Take it off without a file',
  leave: 'Leave it here',
  offList: 'Taken off',
  until: (name: string, day: string) => `${diaryOf(name)} can be brought back until ${day}.`,
  back: 'Bring it back',
  backName: (name: string) => `Bring ${diaryOf(name)} back`,
  letGo: 'Let it go now',
  letGoSure: 'Let it go for ever',
  letGoName: (name: string, sure: boolean) => `${sure ? 'Let go for ever' : 'Let go now'}: ${diaryOf(name)}`,
  stillOpen: (name: string) => `${diaryOf(name)} is still open in another page. Close that page first.`,
  busy: {
    session: (name: string) => `A session is running, and it goes into ${diaryOf(name)}. End it first; what was played stays.`,
    take: (name: string) => `A take is being recorded for ${diaryOf(name)}. Stop it first.`,
    packing: (name: string) => `${diaryOf(name)} is being packed or brought in. It is done in a moment.`,
  },
} as const;
