/** What the parts of a set-up are called. */

const NAMES: Readonly<Record<string, string>> = {
  sticks: 'sticks',
  drums: 'pad or drums',
  pedal: 'pedal',
  heel: 'heel',
  phonePlace: 'place of the phone',
};

/** `setupName('phonePlace')` is "place of the phone"; what is not known is called as it is kept. */
export const setupName = (name: string): string => NAMES[name] ?? name;
