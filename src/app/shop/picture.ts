/** The longer side of a photograph as it is kept (pixels): a weld and its marks are seen in it. */
const LONGEST = 1600;
const QUALITY = 0.85;

/** A photograph made smaller, as JPEG, turned as it was taken; rejects for what the browser does not show. */
export async function smaller(file: Blob): Promise<Blob> {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  const by = Math.min(1, LONGEST / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(picture.width * by);
  canvas.height = Math.round(picture.height * by);
  canvas.getContext("2d")?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error("no picture"))), "image/jpeg", QUALITY);
  });
}
