/** Tables of a build's one SQLite file. */
import type Database from 'better-sqlite3'

export const STORE_FORMAT = 1

const TABLES = `
create table if not exists meta (key text primary key, value text not null) strict;
create table if not exists record (collection text not null, id text not null, json text not null, primary key (collection, id)) strict, without rowid;
create table if not exists sheet (name text primary key, json text not null) strict, without rowid;
create table if not exists journal (
  seq integer primary key autoincrement, at text not null, label text not null,
  before text not null, after text not null, undone integer not null default 0
) strict;
`

export const createTables = (database: Database.Database): void => {
  database.exec(TABLES)
}
