/** Sizes of files. */

/** A size for people, by thousands as disks and rules count: "640 bytes", "24 kB", "3.4 MB", "120 MB". @param byteCount 0 or more. */
export function sizeName(byteCount: number): string {
  if (byteCount < 1000) return byteCount === 1 ? '1 byte' : `${byteCount} bytes`;
  if (byteCount < 999_500) return `${Math.round(byteCount / 1e3)} kB`;
  return `${(byteCount / 1e6).toFixed(byteCount < 9_950_000 ? 1 : 0)} MB`;
}
