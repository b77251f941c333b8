/** What a person reads of a job that a newer version of the program wrote. */
export const readOnly = (version: number): string =>
  `Update Tubewright to change this job. A newer Tubewright (version ${version}) wrote it, and it is read-only here.`;
