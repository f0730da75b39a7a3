/**
 * The rear camera as a stream: asked for as soon as the screen is there, before the job is. A browser that gives none
 * (no secure page, no camera, not allowed) leaves the phone's own camera, through a file field.
 *
 * A shot is drawn from the stream, which takes a few ten milliseconds. Not chosen: `ImageCapture.takePhoto`, which gives
 * more pixels on some phones and takes one to three seconds on many.
 */
import { type RefObject, useCallback, useEffect, useRef, useState } from 'react';

export type CameraState = 'starting' | 'live' | 'none';

export interface Camera {
  readonly video: RefObject<HTMLVideoElement | null>;
  readonly state: CameraState;
  readonly shoot: () => Promise<Blob | null>;
}

const WANTED: MediaStreamConstraints = {
  audio: false,
  video: { facingMode: { ideal: 'environment' }, width: { ideal: 2560 }, height: { ideal: 1920 } },
};
const JPEG_QUALITY = 0.92;

export function useCamera(active: boolean): Camera {
  const video = useRef<HTMLVideoElement>(null);
  const [state, setState] = useState<CameraState>(canAsk() ? 'starting' : 'none');
  // Counts up when the phone took the camera away (a call, the lock) and it has to be asked for anew.
  const [again, setAgain] = useState(0);

  // biome-ignore lint/correctness/useExhaustiveDependencies: `again` is not read; it only asks anew
  useEffect(() => {
    if (!active || !canAsk()) return;
    let stream: MediaStream | null = null;
    const back = () => {
      const isGone = stream?.getVideoTracks().some((t) => t.readyState === 'ended') ?? false;
      if (document.visibilityState === 'visible' && isGone) setAgain((n) => n + 1);
      else if (document.visibilityState === 'visible') void video.current?.play().catch(() => undefined);
    };
    document.addEventListener('visibilitychange', back);
    let current = true;
    setState('starting');
    navigator.mediaDevices.getUserMedia(WANTED).then(
      (given) => {
        stream = given;
        for (const track of given.getVideoTracks()) track.addEventListener('ended', back);
        if (!current) return stop(given);
        const at = video.current;
        if (at === null) return stop(given);
        at.srcObject = given;
        at.play().then(
          () => current && setState('live'),
          () => current && setState('none'),
        );
      },
      () => current && setState('none'),
    );
    return () => {
      current = false;
      document.removeEventListener('visibilitychange', back);
      if (stream !== null) stop(stream);
    };
  }, [active, again]);

  const shoot = useCallback(async (): Promise<Blob | null> => {
    const at = video.current;
    if (at === null || at.videoWidth === 0) return null;
    const canvas = document.createElement('canvas');
    canvas.width = at.videoWidth;
    canvas.height = at.videoHeight;
    canvas.getContext('2d')?.drawImage(at, 0, 0);
    return new Promise((resolve) => canvas.toBlob(resolve, 'image/jpeg', JPEG_QUALITY));
  }, []);

  return { video, state, shoot };
}

function canAsk(): boolean {
  return window.isSecureContext && navigator.mediaDevices?.getUserMedia !== undefined;
}

function stop(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}
