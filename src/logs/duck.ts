/**
 * A DuckDB of our own for one task: in memory, bounded, and locked to the folders it is given. It loads no extension,
 * reads no other file and opens no connection; the settings cannot be changed afterwards.
 */
import { dirname, join, resolve } from 'node:path'
import { type DuckDBConnection, DuckDBInstance } from '@duckdb/node-api'

export interface DuckOptions {
  readonly folders: readonly string[]
  /** Folder for what does not fit in memory. */
  readonly spill: string
  readonly memory?: string
}

export const literal = (text: string): string => `'${text.replaceAll("'", "''")}'`

export async function withDuck<T>(options: DuckOptions, use: (connection: DuckDBConnection) => Promise<T>): Promise<T> {
  const instance = await DuckDBInstance.create(':memory:', {
    memory_limit: options.memory ?? '512MB',
    threads: '2',
    autoinstall_known_extensions: 'false',
    autoload_known_extensions: 'false',
    allow_community_extensions: 'false',
    temp_directory: join(resolve(options.spill), '.swapwright-spill'),
  })
  try {
    const connection = await instance.connect()
    try {
      const folders = [...new Set(options.folders.map((folder) => `${resolve(folder)}/`))]
      await connection.run(`set allowed_directories=[${folders.map(literal).join(', ')}]`)
      await connection.run('set enable_external_access=false')
      await connection.run('set lock_configuration=true')
      return await use(connection)
    } finally {
      connection.closeSync()
    }
  } finally {
    instance.closeSync()
  }
}

/** A DuckDB that may read one Parquet file and nothing else but its folder. */
export const withParquet = <T>(
  file: string,
  use: (connection: DuckDBConnection, source: string) => Promise<T>,
): Promise<T> =>
  withDuck({ folders: [dirname(file)], spill: dirname(file) }, (connection) => use(connection, literal(resolve(file))))

/** Rows of plain numbers, chunk by chunk; a missing value is NaN. Columns must be DOUBLE and not null. */
export async function eachChunk(
  connection: DuckDBConnection,
  sql: string,
  take: (columns: Float64Array[], rows: number) => void,
): Promise<void> {
  const result = await connection.stream(sql)
  for (;;) {
    const chunk = await result.fetchChunk()
    if (!chunk || chunk.rowCount === 0) return
    const columns = Array.from({ length: chunk.columnCount }, (_, column) => {
      // The binding hides the array it reads from; copying a chunk value by value takes four times as long.
      const { items } = chunk.getColumnVector(column) as unknown as { items: unknown }
      if (!(items instanceof Float64Array))
        throw new TypeError(`column ${column} of "${sql.slice(0, 60)}" is not DOUBLE`)
      return items
    })
    take(columns, chunk.rowCount)
  }
}
/** SQL for a DOUBLE that is never null: missing is NaN. */
export const orNan = (expression: string): string => `coalesce((${expression})::double, 'nan'::double)`
