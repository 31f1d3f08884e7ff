/** The phone beside the car: on the laptop the switch and the code to scan, on the phone what it keeps. */
import { useCallback, useEffect, useState } from 'react'
import type { HomeState } from '../../server/home/homeNetwork.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { ask, send } from '../workbench/api.ts'
import { useBench } from '../workbench/useBench.ts'
import { onThisMachine } from './door.ts'
import './phone.css'

export function Phone() {
  return onThisMachine() ? <OnTheLaptop /> : <OnThePhone />
}

function OnThePhone() {
  const { unsent, away } = useBench()
  return (
    <>
      <h1>This phone</h1>
      <p>
        {away ? 'The laptop does not answer just now.' : 'The laptop answers.'}{' '}
        {unsent.length === 0 ? 'Nothing waits to be sent.' : `${unsent.length} changes wait to be sent:`}
      </p>
      <ul>
        {unsent.map((edit) => (
          <li key={JSON.stringify(edit)}>{edit.label}</li>
        ))}
      </ul>
      <p className="soft">
        {isSecureContext
          ? 'The pages are kept on this phone: it can be opened in a garage without signal.'
          : 'This address is not secure, so the phone cannot keep the pages: leave this page open while there is no signal. What you do is kept all the same. With the laptop’s certificate installed, the pages stay too.'}
      </p>
    </>
  )
}

interface Code {
  readonly address: string
  readonly ends: string
  readonly picture: string
  readonly certificatePicture?: string
}
const asImage = (svg: string): string => `data:image/svg+xml,${encodeURIComponent(svg)}`
const day = (instant: string): string => instant.slice(0, 10)

function OnTheLaptop() {
  const [home, setHome] = useState<HomeState>()
  const [code, setCode] = useState<Code>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const attempt = useCallback(async (deed: () => Promise<void>): Promise<void> => {
    try {
      await deed()
      setProblems([])
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }, [])
  const look = useCallback(() => attempt(async () => setHome(await ask<HomeState>('/api/home'))), [attempt])
  useEffect(() => {
    void look()
  }, [look])
  const on = (secure: boolean) =>
    attempt(async () => {
      setHome(await send<HomeState>('/api/home/on', { secure }))
      setCode(await send<Code>('/api/home/code'))
    })
  return (
    <>
      <h1>Phone beside the car</h1>
      <Problems list={problems} />
      {home && !home.on && (
        <>
          <p>
            The workbench answers on this machine only. Turned on for the home network, a phone on the same Wi-Fi can
            show this build, tick jobs, take readings and photographs. Nothing leaves your network.
          </p>
          <div className="row">
            <button type="button" className="first" onClick={() => void on(true)}>
              Turn on, with a certificate made here
            </button>
            <button type="button" onClick={() => void on(false)}>
              Turn on without one
            </button>
          </div>
          <p className="soft">
            With the certificate installed, the phone keeps the pages and can be opened without signal. Without it, the
            traffic can be read by others on your Wi-Fi, photographs come by the file picker, and the page must stay
            open while there is no signal; what you do in it is kept either way.
          </p>
        </>
      )}
      {home?.on && (
        <>
          <p role="status">
            On for the home network at {home.addresses.join(' and ')}
            {home.secure ? ', with the certificate made here' : ', without a certificate'}.
          </p>
          <div className="row">
            <button type="button" onClick={() => void attempt(async () => setCode(await send<Code>('/api/home/code')))}>
              Show a new code
            </button>
            <button
              type="button"
              onClick={() =>
                void attempt(async () => {
                  setHome(await send<HomeState>('/api/home/off'))
                  setCode(undefined)
                })
              }
            >
              Turn off
            </button>
          </div>
          {code && (
            <div className="codes">
              {code.certificatePicture !== undefined && (
                <figure>
                  <img
                    src={asImage(code.certificatePicture)}
                    alt={`Code for the certificate at ${home.certificateAt}`}
                  />
                  <figcaption>
                    First, once: scan this to load the certificate, install it and, in the phone’s settings, trust it.
                    Compare its SHA-256 fingerprint: <span className="fingerprint">{home.fingerprint}</span> It can
                    vouch for private addresses only.
                  </figcaption>
                </figure>
              )}
              <figure>
                <img src={asImage(code.picture)} alt={`Code for pairing at ${home.addresses[0]}`} />
                <figcaption>
                  {code.certificatePicture === undefined ? 'Scan' : 'Then scan'} this with the phone to pair it. Good
                  once, for ten minutes. Or open <span className="fingerprint">{code.address}</span>
                </figcaption>
              </figure>
            </div>
          )}
        </>
      )}
      {home && home.devices.length > 0 && (
        <>
          <h2>Paired phones</h2>
          <table>
            <thead>
              <tr>
                <th scope="col">Name</th>
                <th scope="col">Last here</th>
                <th scope="col">Until</th>
                <th scope="col">
                  <span className="out-of-sight">Send away</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {home.devices.map((device) => (
                <tr key={device.id}>
                  <th scope="row">{device.name}</th>
                  <td>{device.seen === null ? 'not yet' : day(device.seen)}</td>
                  <td>{device.revoked ? 'sent away' : day(device.ends)}</td>
                  <td>
                    {!device.revoked && (
                      <button
                        type="button"
                        aria-label={`Send away ${device.name}`}
                        onClick={() =>
                          void attempt(async () =>
                            setHome(await send<HomeState>(`/api/home/devices/${device.id}/revoke`)),
                          )
                        }
                      >
                        Send away
                      </button>
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
          <p>
            <button type="button" onClick={() => void look()}>
              Look again
            </button>
          </p>
        </>
      )}
    </>
  )
}
