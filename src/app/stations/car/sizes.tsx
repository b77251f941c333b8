import styles from "./sizes.module.css";

/** Sizes with their errors, three abreast: what, how much, ±. */
export const Sizes = (props: {
  readonly sizes: readonly { readonly name: string; readonly size: string; readonly error: string }[];
}) => (
  <dl className={styles.sizes}>
    {props.sizes.map(({ name, size, error }) => (
      <div key={name}>
        <dt>{name}</dt>
        <dd>
          <strong>{size}</strong> ± {error}
        </dd>
      </div>
    ))}
  </dl>
);
