/** No bar is in hand where one is needed. */
export function TakeOne({ question }: { readonly question: string }) {
  return (
    <section className="take-one">
      <h2>Take a bar in hand: {question}</h2>
      <p>Tap one in the row of bars. It stays in hand from station to station.</p>
    </section>
  );
}
