/** What the path of a content file says. */

/** `content/KIND/ID.yaml` */
export const pathPattern = /^content\/([^/]+)\/([^/]+)\.ya?ml$/;

/** Annotated templates stand beside the content that they are copied for, and are no content. */
export const isTemplate = (path: string): boolean => /^content\/[^/]+\/_template\.yaml$/.test(path);
