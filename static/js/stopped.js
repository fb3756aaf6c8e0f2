// Stopped remembers which jobs killed a core of this build. After the second time the next core does not open that job,
// so that the other jobs work. A newer build tries again, and so does a tap.
const key = 'garlandry-stopped';
const twice = 2;
let kept = {}; // where the browser keeps nothing: as long as this page

function counts(build) {
  try {
    const read = JSON.parse(localStorage.getItem(key) || 'null');
    if (read) kept = read;
  } catch { /* no storage, or not readable: what this page knows */ }
  return kept.build === build ? kept.jobs : {};
}

function note(build, jobs) {
  kept = { build, jobs };
  try { localStorage.setItem(key, JSON.stringify(kept)); } catch { /* as above */ }
}

// setAside lists the jobs that the next core must not open.
export function setAside(build) {
  const jobs = counts(build);
  return Object.keys(jobs).filter((job) => jobs[job] >= twice);
}

// blame counts that a core stopped while it worked on the job. It is false if the job was set aside already.
export function blame(build, job, times) {
  const jobs = { ...counts(build) };
  if ((jobs[job] || 0) >= twice) return false;
  jobs[job] = (jobs[job] || 0) + times;
  note(build, jobs);
  return true;
}

// again clears the count of a job, so that the next core opens it.
export function again(build, job) {
  const jobs = { ...counts(build) };
  delete jobs[job];
  note(build, jobs);
}
