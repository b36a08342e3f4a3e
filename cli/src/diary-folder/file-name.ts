/** What kind of file a name is of, by its end. */

/** Whether a name is that of a backup. */
export const isBackupName = (file: string): boolean => /\.zip$/i.test(file);

/** Whether a name is that of a table. */
export const isTableName = (file: string): boolean => /\.csv$/i.test(file);
