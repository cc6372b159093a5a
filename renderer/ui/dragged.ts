/** What is dragged into the window from outside. While files are dragged, only their types can be seen. */

export function bringsPictures({ dataTransfer }: Pick<DragEvent, 'dataTransfer'>): boolean {
  const files = [...(dataTransfer?.items ?? [])].filter(({ kind }) => kind === 'file');
  return files.length > 0 && files.every(({ type }) => isPicture(type));
}

/** By a media type. */
export function isPicture(type: string): boolean {
  return type.startsWith('image/');
}
