// What is dropped on the page, or chosen: a caption file, the video with it, or something that it should not be.

const moving = /\.(mp4|m4v|mov|webm|mkv|avi|wmv|mpe?g|mp3|m4a|aac|wav|ogg|oga|ogv|flac|opus)$/i;
const isVideo = (f) => /^(video|audio)\//.test(f.type) || moving.test(f.name);

/**
 * Sorts what a drop brought into { captions, video, fault }: files to open, or what is wrong in words. most is the size of the
 * largest caption file that is read, in bytes; hasSession says whether a video alone has captions to go with.
 */
export function sort(transfer, most, hasSession) {
  const folder = [...transfer.items ?? []].some((i) => i.kind === 'file' && i.webkitGetAsEntry?.()?.isDirectory);
  const files = [...transfer.files];
  if (folder) return { fault: 'That is a folder. Drop the caption file in it.' };
  if (files.length === 0) return { fault: 'No file came with that. Drop the caption file itself.' };
  const video = files.find(isVideo);
  const texts = files.filter((f) => !isVideo(f));
  if (texts.length > 1) return { fault: `One session at a time: drop one caption file, with its video if you like. These were ${texts.length}.` };
  const [captions] = texts;
  if (!captions && !hasSession) return { fault: `${video.name} is the video or the sound itself, and captally reads the captions. Drop its caption file; both together, if you like.` };
  return captions ? { captions, video, fault: faultOf(captions, most) } : { video };
}

/** What is wrong with a caption file before it is read; "" for nothing. */
function faultOf(file, most) {
  if (file.size === 0) return `${file.name} is empty.`;
  if (file.size > most) return `${file.name} is larger than ${Math.floor(most / 2 ** 20)} MB, which no caption file of one session is. Is it the video itself?`;
  return '';
}
