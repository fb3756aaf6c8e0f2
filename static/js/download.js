// download saves a file that the core made.
export function download({ text, mime, name }) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: mime }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}
