/** Labels that say whose diary is open. */

export const whoseLabels = {
  diary: (name: string) => `${name}’s diary`,
  button: (name: string) => `${name}’s diary: change the player`,
  into: (name: string) => `What is played now goes into ${name}’s diary.`,
  only: (name: string) => `This is about ${name}’s diary alone. The other players’ diaries are saved and brought back from their own.`,
  bring: (name: string) => `It would come into ${name}’s diary. The diaries of the others stay as they are.`,
} as const;
