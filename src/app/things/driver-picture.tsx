import type { Job } from "../../core/job/index.ts";
import { DRIVER_SHEET } from "../../words/index.ts";
import styles from "./things.module.css";

/** The driver from the left, forward to the left of the picture: what is entered in full, what is not dashed. */
export function DriverPicture({ driver }: { readonly driver: Job["driver"] }) {
  const of = (isThere: boolean): string => (isThere ? styles.seen : styles.wanted) ?? "";
  return (
    <figure className={styles.driver}>
      <svg viewBox="0 0 300 200" role="img" aria-label={DRIVER_SHEET.picture}>
        <path className={styles.floor} d="M10 190H290" />
        <path className={styles.body} d="M150 162L206 66M150 162L82 138L40 178" />
        <path className={of(driver?.shoulder !== undefined)} d="M150 162L206 66" />
        <path className={styles.angle} d="M190 162A40 40 0 0 0 170 127" />
        <path className={styles.thin} d="M150 162H214" />
        <circle className={of(driver?.hip !== undefined)} cx="150" cy="162" r="7" />
        <circle className={of(driver?.shoulder !== undefined)} cx="200" cy="76" r="7" />
        <circle className={of(driver?.helmet !== undefined)} cx="220" cy="42" r="30" />
        <circle className={of(driver?.helmet !== undefined)} cx="220" cy="42" r="2.5" />
        <text x="160" y="182">
          {DRIVER_SHEET.hip}
        </text>
        <text x="168" y="86" textAnchor="end">
          {DRIVER_SHEET.shoulder}
        </text>
        <text x="184" y="30" textAnchor="end">
          {DRIVER_SHEET.helmet}
        </text>
        <text x="200" y="150">
          {DRIVER_SHEET.backShort}
        </text>
      </svg>
      <figcaption>{DRIVER_SHEET.pictureNote}</figcaption>
    </figure>
  );
}
