/** Words that a person types. */
import { z } from 'zod'

export const text = z.string().max(4000)
export const name = z.string().min(1).max(160)
