/// A file into the user's hands: the system's share sheet where there is one, else a download.
export function save(name: string, type: string, content: BlobPart) {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const a = document.createElement('a');
  a.href = url;
  a.download = name;
  a.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

export async function share(name: string, type: string, content: BlobPart): Promise<void> {
  const file = new File([content], name, { type });
  if (!navigator.canShare?.({ files: [file] })) return save(name, type, content);
  try {
    await navigator.share({ files: [file] });
  } catch (cause) {
    if ((cause as Error).name !== 'AbortError') save(name, type, content);
  }
}
