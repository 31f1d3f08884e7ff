/** The cautions of a piece of work, where it is shown. */
export function Cautions({ list }: { list: readonly string[] }) {
  if (list.length === 0) return null
  return (
    <ul className="cautions">
      {list.map((caution) => (
        <li key={caution}>{caution}</li>
      ))}
    </ul>
  )
}
