// SPDX-License-Identifier: Apache-2.0
// Reads a QR code with the camera, where the browser can; where it cannot, the field beside it takes the text.
import { useEffect, useRef, useState } from "preact/hooks";
import { useWords } from "../i18n/use_words";
import { Button } from "./button";
import { Dialog } from "./dialog";
import { Notice } from "./notice";

interface Detector {
  detect(source: HTMLVideoElement): Promise<{ rawValue: string }[]>;
}
type MakeDetector = new (options: { formats: string[] }) => Detector;
const maker = (globalThis as unknown as { BarcodeDetector?: MakeDetector }).BarcodeDetector;
export const canScan = maker !== undefined && !!globalThis.navigator?.mediaDevices;

const lookEveryMs = 200;

function Camera({ onText, onFault }: { onText: (text: string) => void; onFault: () => void }) {
  const video = useRef<HTMLVideoElement>(null);
  useEffect(() => {
    let stream: MediaStream | undefined;
    let timer: ReturnType<typeof setInterval> | undefined;
    let over = false;
    const look = async (detector: Detector) => {
      const found = video.current && (await detector.detect(video.current).catch(() => []));
      if (!over && found && found[0]) onText(found[0].rawValue);
    };
    const start = async () => {
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
      if (over || !video.current || !maker) return;
      video.current.srcObject = stream;
      await video.current.play();
      const detector = new maker({ formats: ["qr_code"] });
      timer = setInterval(() => void look(detector), lookEveryMs);
    };
    start().catch(onFault);
    return () => {
      over = true;
      clearInterval(timer);
      for (const track of stream?.getTracks() ?? []) track.stop();
    };
  }, []);
  return <video ref={video} class="camera" muted playsInline />;
}

export function Scan({ onText }: { onText: (text: string) => void }) {
  const { t } = useWords();
  const [shown, setShown] = useState(false);
  const [failed, setFailed] = useState(false);
  if (!canScan) return <p class="fine">{t("scan.cannot")}</p>;
  return (
    <>
      <Button icon="scan" wide onPress={() => (setFailed(false), setShown(true))}>{t("scan.button")}</Button>
      {shown && (
        <Dialog title={t("scan.title")} onClose={() => setShown(false)}>
          {failed
            ? <Notice tone="hold" title={t("scan.noCamera")} live />
            : <Camera onText={(text) => (setShown(false), onText(text))} onFault={() => setFailed(true)} />}
        </Dialog>
      )}
    </>
  );
}
