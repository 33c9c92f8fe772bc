/** The forms in which a path is told. */
export const pathForms = ['text', 'markdown'] as const;
export type PathForm = (typeof pathForms)[number];
