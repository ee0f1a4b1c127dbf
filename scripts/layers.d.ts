export declare const LAYERS: readonly string[];
export declare const PURE_LAYERS: readonly string[];
