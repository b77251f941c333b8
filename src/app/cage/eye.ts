import { Matrix4, OrthographicCamera, PerspectiveCamera, Vector3 } from "three";
import { along, dot, sub, type Vec } from "../../core/space/index.ts";
import { axesOf, type Camera, distanceOf, FIELD } from "./camera.ts";

/** What there is to see, as a ball (mm, car axes). */
export interface Around {
  readonly centre: Vec;
  readonly radius: number;
}

/** Below this the perspective is not to be seen, and parallel rays spare the depth's precision. */
const FLAT = 0.04;

/** The two cameras of three; `aim` sets up the one that a camera's state calls for. Places are less `origin`. */
export class Eye {
  private readonly flat = new OrthographicCamera();
  private readonly free = new PerspectiveCamera();
  private readonly basis = new Matrix4();
  private readonly origin: Vec;

  constructor(origin: Vec) {
    this.origin = origin;
  }

  aim(camera: Camera, aspect: number, around: Around): OrthographicCamera | PerspectiveCamera {
    const { toward, right, up } = axesOf(camera);
    // How far in front of and behind the target there is something to see.
    const ahead = dot(sub(around.centre, camera.target), toward) + around.radius + 10;
    const behind = around.radius + 10 - dot(sub(around.centre, camera.target), toward);
    const isFlat = camera.perspective < FLAT;
    const distance = isFlat ? Math.max(ahead, 10) : distanceOf(camera);
    const lens = isFlat ? this.flat : this.free;
    if (isFlat) {
      const half = camera.height / 2;
      Object.assign(this.flat, { left: -half * aspect, right: half * aspect, top: half, bottom: -half });
      lens.near = 0;
    } else {
      this.free.fov = FIELD * camera.perspective;
      this.free.aspect = aspect;
      lens.near = Math.max(distance * 0.03, distance - ahead);
    }
    lens.far = Math.max(distance + behind, lens.near + 10);
    const at = sub(along(camera.target, toward, distance), this.origin);
    lens.position.set(at[0], at[1], at[2]);
    this.basis.makeBasis(new Vector3(...right), new Vector3(...up), new Vector3(...toward));
    lens.quaternion.setFromRotationMatrix(this.basis);
    lens.updateProjectionMatrix();
    lens.updateMatrixWorld();
    return lens;
  }
}
